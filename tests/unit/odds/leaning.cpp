// SPDX-License-Identifier: MIT
#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <string>
#include <support/jobs.hpp>
#include <trialfit/numerics/distribution/cdf_table.hpp>
#include <trialfit/numerics/random/estimate.hpp>
#include <trialfit/odds/direction/leant.hpp>
#include <trialfit/odds/odds.hpp>
#include <variant>

using namespace trialfit;
using namespace trialfit::odds;
using namespace trialfit::testing;

namespace {

constexpr std::uint64_t kDraws = 400'000;

job::Centring off_by(int on, const job::Given& clearance) {
    return {.by = job::CentredBy::bolts, .on = on, .on_written = "it", .clearance = clearance};
}

// A stator of 52 on a plate on a case; a rotor of 50 on a crank on the case: a width of 1.
job::Job two_and_two() {
    job::Job job;
    job.parts.push_back(PartOf("case", "face"));
    PartOf plate("plate", "in");
    plate.face("out", given(1.0), "in").seat(on_face(0, {0, 0}));
    PartOf stator("stator", "in");
    stator.face("out", given(20.0), "in").ring("poles", "in", "out", 52, 90);
    stator.seat(on_face(0, {1, 1}));
    PartOf crank("crank", "in");
    crank.turns().face("out", given(1.0), "in").seat(on_face(0, {0, 0}));
    PartOf rotor("rotor", "in");
    rotor.turns().face("out", given(20.0), "in").ring("body", "in", "out", 10, 50);
    rotor.seat(on_face(0, {3, 1}));
    for (const PartOf& each : {plate, stator, crank, rotor})
        job.parts.push_back(each);
    return job;
}

OddsAnswer answer_of(const job::Job& job, unsigned threads = 0) {
    Options options;
    options.sampling = {.samples = kDraws, .seed = 5, .threads = threads};
    return std::get<OddsAnswer>(trialfit::odds::odds(job, options));
}

double error_of(const numerics::Probability& p) {
    return (p.upper - p.lower) / 2.0 / numerics::kNinetyFive;
}

double normal_below(double z) {
    return 0.5 * std::erfc(-z / std::sqrt(2.0));
}

}  // namespace

TEST_CASE("one eccentricity a side needs no direction: exact") {
    job::Job job = two_and_two();
    job.radial_clearance = 0.8;
    job.parts[2].centred = off_by(1, given(0.2, 0.03));
    job.parts[4].runout = {{.is = given(0.2, 0.03)}};
    const CheckOdds found = answer_of(job).radial.at(0);
    CHECK(found.exact);
    // 1 - (x + y)/2 >= 0.8 with x, y normal about 0.2, sd 0.01: even odds, less the 1e-9 that a
    // limit is relaxed by.
    CHECK(found.holds.value == doctest::Approx(0.5).epsilon(1e-6));
    CHECK(found.sd == doctest::Approx(0.005 * std::sqrt(2.0)));
}

TEST_CASE("over a turn, the still sum and the turning sum come to stand against each other") {
    // Two of 0.05 on each side: each sum is 0.1 |cos t| of one uniform angle. The chance is worked
    // out on a fine grid of both angles, the mean 2 x 0.05 x 4/pi.
    job::Job job = two_and_two();
    job.radial_clearance = 0.87;
    for (const int part : {1, 3})
        job.parts[static_cast<std::size_t>(part)].centred = off_by(0, given(0.1));
    job.parts[3].centred.reset();
    job.parts[3].runout = {{.is = given(0.1)}};
    job.parts[2].centred = off_by(1, given(0.1));
    job.parts[4].runout = {{.is = given(0.1)}};
    constexpr int kGrid = 2000;
    int holds = 0;
    for (int i = 0; i < kGrid; ++i)
        for (int k = 0; k < kGrid; ++k)
            holds += 0.1 * (std::cos(M_PI / 2.0 * (i + 0.5) / kGrid) +
                            std::cos(M_PI / 2.0 * (k + 0.5) / kGrid)) <=
                             0.13
                         ? 1
                         : 0;
    const double wanted = holds / static_cast<double>(kGrid) / kGrid;
    const CheckOdds found = answer_of(job).radial.at(0);
    CHECK_FALSE(found.exact);
    CHECK(found.holds.lower < found.holds.value);
    CHECK(std::abs(found.holds.value - wanted) <= 4.0 * error_of(found.holds) + 1e-4);
    CHECK(std::abs(found.mean - (1.0 - 0.1 * 4.0 / M_PI)) <=
          4.0 * found.sd / std::sqrt(static_cast<double>(kDraws)));
}

TEST_CASE("a shaft's play in its bearing always meets the worst direction") {
    job::Job job = two_and_two();
    job.parts[1].centred = off_by(0, given(0.1));
    job.parts[2].centred = off_by(1, given(0.1));
    const double without = answer_of(job).radial.at(0).mean;
    job.parts[3].centred = job::Centring{
        .by = job::CentredBy::bearing, .on = 0, .on_written = "case", .clearance = given(0.04)};
    CHECK(answer_of(job).radial.at(0).mean == doctest::Approx(without - 0.02).epsilon(1e-9));
}

TEST_CASE("with diameters that spread, each draw is a chance and not a hit or a miss") {
    // Width normal about 1, sd 0.01; two still vectors of 0.02. The mean over the angle of the
    // normal's tail, on a grid.
    job::Job job = two_and_two();
    job.parts[2].rings[0].bore = given(52.0, 0.06);  // sd 0.02 on diameter
    job.parts[1].centred = off_by(0, given(0.04));
    job.parts[2].centred = off_by(1, given(0.04));
    for (const double at_least : {0.98, 0.93, 0.91}) {
        job.radial_clearance = at_least;
        double fails = 0.0;
        constexpr int kGrid = 20'000;
        for (int i = 0; i < kGrid; ++i) {
            const double off = 0.04 * std::cos(M_PI / 2.0 * (i + 0.5) / kGrid);
            fails += normal_below((at_least + off - 1.0) / 0.01) / kGrid;
        }
        const CheckOdds found = answer_of(job).radial.at(0);
        CAPTURE(at_least);
        CHECK(std::abs(found.fails - fails) <= 4.0 * error_of(found.holds) + 1e-6 * fails);
        // In the tail a hit or miss would be known to sqrt(p/n) only.
        if (fails < 0.01)
            CHECK(error_of(found.holds) < 0.5 * std::sqrt(fails / static_cast<double>(kDraws)));
    }
}

TEST_CASE("alone and among all together, the same chance; and any number of threads, the same") {
    job::Job job = two_and_two();
    job.radial_clearance = 0.93;
    job.parts[2].rings[0].bore = given(52.0, 0.06);
    job.parts[1].centred = off_by(0, given(0.06, 0.01));
    job.parts[2].centred = off_by(1, given(0.04, 0.01));
    job.parts[4].runout = {{.is = given(0.03, 0.01)}};
    const OddsAnswer one = answer_of(job, 1);
    const CheckOdds& alone = one.radial.at(0);
    // All else in the job is certain; together is drawn with the sizes, alone given them.
    CHECK(std::abs(one.all.value - alone.holds.value) <=
          4.0 * (error_of(one.all) + error_of(alone.holds)));
    CHECK(error_of(alone.holds) < error_of(one.all));
    for (const unsigned threads : {2U, 7U}) {
        const OddsAnswer more = answer_of(job, threads);
        CHECK(more.all.value == one.all.value);
        CHECK(more.radial.at(0).holds.value == alone.holds.value);
        CHECK(more.radial.at(0).holds.lower == alone.holds.lower);
        CHECK(more.radial.at(0).quantiles.at(0).value == alone.quantiles.at(0).value);
    }
}

TEST_CASE("never worse than the worst directions, never better than none") {
    job::Job job = two_and_two();
    job.parts[1].centred = off_by(0, given(0.06, 0.01));
    job.parts[2].centred = off_by(1, given(0.04, 0.01));
    job.radial_clearance = 0.93;  // 0.94 with both at their upper limits
    const CheckOdds sure = answer_of(job).radial.at(0);
    CHECK(sure.fails <= 1e-9);
    job.radial_clearance = 1.01;
    const CheckOdds never = answer_of(job).radial.at(0);
    CHECK(never.holds.value == 0.0);
    CHECK(never.exact);
}

TEST_CASE("two tilts add up as vectors, in the odds of a gap along the axis and in first contact") {
    // A cup of 100 on a hub, each leaning by 0.001: both swing the edge by 0.05, together by
    // 0.1 |cos t|. Over a plate 0.05 below it, it clears one time in three.
    job::Job job;
    job.parts.push_back(PartOf("case", "face").face("boss", given(10.0), "face"));
    PartOf plate("plate", "back");
    plate.face("front", given(10.0), "back").ring("disc", "back", "front", 30, 120);
    plate.seat(on_face(0, {0, 0}));
    PartOf hub("hub", "in");
    hub.turns().face("out", given(0.05), "in").seat(on_face(0, {0, 1}));
    PartOf cup("cup", "rim");
    cup.turns().face("back", given(20.0), "rim").ring("wall", "rim", "back", 90, 100);
    cup.seat(on_face(0, {2, 1}));
    for (const PartOf& each : {plate, hub, cup})
        job.parts.push_back(each);
    for (const std::size_t part : {2U, 3U})
        job.parts[part].face_runout = job::FaceRunout{.is = given(0.1), .dia = 100.0};
    const OddsAnswer answer = answer_of(job);
    const CheckOdds& found = answer.clearances.at(0);
    CHECK_FALSE(found.exact);
    CHECK(std::abs(found.holds.value - 1.0 / 3.0) <= 4.0 * error_of(found.holds));
    const double n = static_cast<double>(kDraws);
    CHECK(std::abs(answer.nothing_touches - 1.0 / 3.0) <= 4.0 * std::sqrt(2.0 / 9.0 / n));
    REQUIRE(answer.touches_first.size() == 1);
    CHECK(answer.touches_first[0].part == "cup");
}

TEST_CASE("what drives a gap that leans: shares of the whole, and less spread fails less") {
    job::Job job = two_and_two();
    job.radial_clearance = 0.85;
    job.parts[2].rings[0].bore = given(52.0, 0.24);
    job.parts[1].centred = off_by(0, given(0.06, 0.03));
    job.parts[2].centred = off_by(1, given(0.04, 0.03));
    const CheckOdds found = answer_of(job).radial.at(0);
    REQUIRE(found.drivers.size() == 4);  // the rotor's diameter has no spread
    double sum = 0.0;
    for (const RiskDriver& each : found.drivers)
        sum += each.share_of_variance;
    CHECK(sum == doctest::Approx(1.0).epsilon(0.02));
    CHECK(found.drivers[0].size == "stator.poles bore");
    CHECK(found.drivers[0].fails_if_halved < 0.5 * found.fails);
    // The curve is a density, and its quantiles lie in order about the mean.
    double area = 0.0;
    for (const double each : found.curve.density)
        area += each * found.curve.step;
    CHECK(area == doctest::Approx(0.999).epsilon(0.01));
    CHECK(std::is_sorted(found.quantiles.begin(), found.quantiles.end(),
                         [](const auto& a, const auto& b) { return a.value < b.value; }));
}

TEST_CASE("a looked-up distribution is the exact one") {
    const std::vector<numerics::Contributor> sizes = {{1.0, numerics::normal(3.0, 0.2)},
                                                      {-0.5, numerics::uniform(0.1, 0.5)}};
    const numerics::SumDistribution sum(sizes);
    const numerics::CdfTable below(sum, numerics::CdfTable::Side::below);
    const numerics::CdfTable above(sum, numerics::CdfTable::Side::above);
    for (int i = -40; i <= 40; ++i) {
        const double x = sum.mean() + 0.1 * i * sum.sd();
        CHECK(std::abs(below(x) - sum.cdf(x)) < 1e-7);
        CHECK(std::abs(above(x) - sum.survival(x)) < 1e-7);
    }
    const numerics::SumDistribution fixed(std::vector<numerics::Contributor>{}, 2.0);
    CHECK(numerics::CdfTable(fixed, numerics::CdfTable::Side::below)(2.0 + 1e-12) == 1.0);
    CHECK(numerics::CdfTable(fixed, numerics::CdfTable::Side::below)(2.0 - 1e-12) == 0.0);
    CHECK(numerics::CdfTable(fixed, numerics::CdfTable::Side::above)(2.0 - 1e-12) == 1.0);
}
