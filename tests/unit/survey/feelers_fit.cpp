// SPDX-License-Identifier: MIT
#include <doctest/doctest.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>
#include <random>
#include <trialfit/numerics/distribution/chi_square.hpp>
#include <trialfit/survey/feelers/fit.hpp>
#include <vector>

using namespace trialfit::survey;
using doctest::Approx;

namespace {

using Unknowns = std::array<double, 10>;  // as in FeelerUnknowns

double rad(double degrees) {
    return degrees * std::numbers::pi / 180.0;
}

double part_towards(double x, double y, double degrees) {
    return x * std::cos(rad(degrees)) + y * std::sin(rad(degrees));
}

// The gap of feelers_fit.hpp's equation, z from -1 to 1.
double gap(const Unknowns& t, double clock, double rotor, double z, bool still_outside) {
    const double side = still_outside ? 1.0 : -1.0;
    return t[0] + z * t[5] +
           side * (part_towards(t[1] + z * t[6], t[2] + z * t[7], clock) -
                   part_towards(t[3] + z * t[8], t[4] + z * t[9], clock - rotor));
}

struct Plan {
    std::vector<double> clocks{0, 90, 180, 270};
    std::vector<double> rotors{0, 180};
    std::vector<double> heights{0};
};

std::vector<FeelerObservation> made(const Unknowns& t, const Plan& plan, bool still_outside = true,
                                    double sd = 0.01) {
    const auto [low, high] = std::minmax_element(plan.heights.begin(), plan.heights.end());
    const double half = std::max((*high - *low) / 2.0, 1e-9);
    std::vector<FeelerObservation> all;
    for (const double height : plan.heights)
        for (const double rotor : plan.rotors)
            for (const double clock : plan.clocks)
                all.push_back(
                    {clock, rotor, height,
                     gap(t, clock, rotor, (height - (*low + *high) / 2.0) / half, still_outside),
                     sd});
    return all;
}

bool told(const FeelerFit& fit, FeelerTerm term) {
    return std::none_of(fit.not_told.begin(), fit.not_told.end(),
                        [&](const FeelerNotTold& each) { return each.term == term; });
}

const FeelerNotTold& not_told(const FeelerFit& fit, FeelerTerm term) {
    for (const FeelerNotTold& each : fit.not_told)
        if (each.term == term) return each;
    FAIL("told");
    return fit.not_told.front();
}

const Unknowns kAll{0.25, -0.03, 0.04, 0.012, -0.02, 0.01, 0.03, -0.015, 0.02, 0.025};
const Plan kEverything{{0, 90, 180, 270}, {0, 120, 240}, {3, 19}};

}  // namespace

TEST_CASE("what was put in comes out: mean, offset, runout, taper, leaning and cocking") {
    for (const bool still_outside : {true, false}) {
        const FeelerFit fit = fit_feelers(made(kAll, kEverything, still_outside), still_outside);
        CHECK(fit.not_told.empty());
        CHECK(fit.freedom == 14);
        CHECK(fit.chi_square == Approx(0.0).epsilon(1e-12));
        for (Eigen::Index i = 0; i < kUnknowns; ++i)
            CHECK(fit.unknowns.value[i] ==
                  Approx(kAll.at(static_cast<std::size_t>(i))).epsilon(1e-12));
    }
}

TEST_CASE("the gap of two real circles, to first order in offset over radius") {
    // From the axis towards a, a circle of radius R round c lies at c.u + sqrt(R^2 - (c x u)^2).
    constexpr double kBore = 37.25;
    constexpr double kBody = 37.0;
    const auto reach = [](double x, double y, double radius, double degrees) {
        const double across = part_towards(y, -x, degrees);
        return part_towards(x, y, degrees) + std::sqrt(radius * radius - across * across);
    };
    std::vector<FeelerObservation> readings;
    for (const double rotor : {0.0, 90.0, 180.0})
        for (const double clock : {0.0, 60.0, 150.0, 240.0, 330.0})
            readings.push_back(
                {clock, rotor, 0.0,
                 reach(0.06, -0.08, kBore, clock) - reach(0.03, 0.04, kBody, clock - rotor), 0.01});
    const FeelerFit fit = fit_feelers(readings, true);
    // What is left out is at most (0.1^2 + 0.05^2) / (2 * 37) = 0.00017.
    constexpr double kLeftOut = 0.00017;
    CHECK(std::abs(fit.unknowns.value[0] - 0.25) < kLeftOut);
    CHECK(std::abs(fit.unknowns.value[1] - 0.06) < kLeftOut);
    CHECK(std::abs(fit.unknowns.value[2] + 0.08) < kLeftOut);
    CHECK(std::abs(fit.unknowns.value[3] - 0.03) < kLeftOut);
    CHECK(std::abs(fit.unknowns.value[4] - 0.04) < kLeftOut);
    const FeelerVector offset = vector_of(fit, FeelerTerm::offset, 1.0);
    CHECK(offset.amount.is == Approx(0.1).epsilon(0.002));
    CHECK(offset.towards_deg == Approx(360.0 - 53.13).epsilon(0.001));
    CHECK(offset.seen);
}

TEST_CASE("0.25 one side and 0.15 the other is 0.05 off, along that line and as the rotor stood") {
    // A twin owners' page, "alternator air gap": offset (0.25 - 0.15)/2 = 0.05.
    const FeelerFit fit = fit_feelers({{90, 0, 0, 0.25, 0.01}, {270, 0, 0, 0.15, 0.01}}, true);
    const FeelerVector offset = vector_of(fit, FeelerTerm::offset, 1.0);
    CHECK(fit.unknowns.value[0] == Approx(0.20).epsilon(1e-12));
    CHECK(offset.amount.is == Approx(0.05).epsilon(1e-12));
    CHECK(offset.towards_deg == Approx(90.0).epsilon(1e-12));
    REQUIRE(offset.along_deg);
    CHECK(*offset.along_deg == Approx(90.0).epsilon(1e-12));
    CHECK(offset.amount.sd == Approx(0.01 / std::sqrt(2.0)).epsilon(1e-12));
    CHECK(fit.freedom == 0);
    CHECK(not_told(fit, FeelerTerm::runout).why == NotTold::not_turned);
    CHECK(fit.mixed(FeelerTerm::offset));
    CHECK_FALSE(fit.mixed(FeelerTerm::mean));
}

TEST_CASE("with the rotor never turned, what comes out is offset less eccentricity") {
    const Unknowns t{0.25, 0.05, 0.0, 0.0, 0.03};
    const FeelerFit fit = fit_feelers(made(t, {.rotors = {90}}), true);
    // The rotor's 0.03 towards 3 of its mark, which is at 3, lies towards 6: it adds to the 0.05.
    CHECK(fit.unknowns.value[1] == Approx(0.08).epsilon(1e-12));
    CHECK(std::abs(fit.unknowns.value[2]) < 1e-12);
    const FeelerNotTold& runout = not_told(fit, FeelerTerm::runout);
    CHECK(runout.why == NotTold::not_turned);
    CHECK(runout.shows_in == std::vector{FeelerTerm::offset});
    CHECK(not_told(fit, FeelerTerm::taper).why == NotTold::one_height);
    CHECK(not_told(fit, FeelerTerm::still_leans).why == NotTold::one_height);
    CHECK(not_told(fit, FeelerTerm::turning_cocked).why == NotTold::one_height);
}

TEST_CASE("a rotor turned by hardly anything counts as not turned, one turned by 30 degrees not") {
    const FeelerFit little = fit_feelers(made(kAll, {.rotors = {0, 10}}), true);
    CHECK(not_told(little, FeelerTerm::runout).why == NotTold::not_turned);
    const FeelerFit enough = fit_feelers(made(kAll, {.rotors = {0, 30}}), true);
    CHECK(told(enough, FeelerTerm::runout));
    // Little is told by it, and the uncertainty says so.
    const FeelerFit half = fit_feelers(made(kAll, {.rotors = {0, 180}}), true);
    CHECK(enough.unknowns.covariance(3, 3) > 10.0 * half.unknowns.covariance(3, 3));
}

TEST_CASE("feeler at one place, or going round with the rotor: one of the two is told") {
    const FeelerFit one_place =
        fit_feelers(made(kAll, {.clocks = {90}, .rotors = {0, 90, 180, 270}}), true);
    CHECK(not_told(one_place, FeelerTerm::offset).why == NotTold::one_place);
    CHECK(not_told(one_place, FeelerTerm::offset).shows_in == std::vector{FeelerTerm::mean});
    CHECK(one_place.mixed(FeelerTerm::mean));
    CHECK(one_place.unknowns.value[3] == Approx(kAll[3]).epsilon(1e-12));
    CHECK(one_place.unknowns.value[4] == Approx(kAll[4]).epsilon(1e-12));

    std::vector<FeelerObservation> with_rotor;
    for (const double clock : {0.0, 90.0, 180.0, 270.0})
        with_rotor.push_back({clock, clock, 0, gap(kAll, clock, clock, 0, true), 0.01});
    const FeelerFit round = fit_feelers(with_rotor, true);
    CHECK(not_told(round, FeelerTerm::runout).why == NotTold::turned_with_feeler);
    CHECK(round.unknowns.value[1] == Approx(kAll[1]).epsilon(1e-12));
    CHECK(round.mixed(FeelerTerm::mean));
}

TEST_CASE("two heights, each with the rotor elsewhere, tangle leaning with runout") {
    std::vector<FeelerObservation> readings = made(kAll, {.rotors = {0}, .heights = {0}});
    for (const FeelerObservation& each : made(kAll, {.rotors = {180}, .heights = {10}}))
        readings.push_back(each);
    const FeelerFit fit = fit_feelers(readings, true);
    const FeelerNotTold& leans = not_told(fit, FeelerTerm::still_leans);
    CHECK(leans.why == NotTold::too_few);
    CHECK(leans.shows_in == std::vector{FeelerTerm::runout});
    CHECK(told(fit, FeelerTerm::taper));
}

TEST_CASE("one reading tells the mean and nothing else") {
    const FeelerFit fit = fit_feelers({{90, 0, 0, 0.25, 0.01}}, true);
    CHECK(fit.unknowns.value[0] == 0.25);
    CHECK(fit.not_told.size() == 5);
    CHECK(fit.freedom == 0);
}

TEST_CASE("two places that are not opposite tell no offset") {
    const FeelerFit fit = fit_feelers({{0, 0, 0, 0.25, 0.01}, {90, 0, 0, 0.15, 0.01}}, true);
    CHECK_FALSE(told(fit, FeelerTerm::offset));
    CHECK(fit.mixed(FeelerTerm::mean));
}

TEST_CASE(
    "the standard uncertainties cover as often as they should, and chi-square keeps its mean") {
    // Uniform errors of a gauge; 4,000 surveys, so that a share of 0.95 is good to +-0.0034 (1 sd).
    constexpr int kSurveys = 4000;
    constexpr double kHalf = 0.02;
    const double sd = kHalf / std::sqrt(3.0);
    std::mt19937_64 random(20261125);
    const auto uniform = [&] { return 2.0 * static_cast<double>(random() >> 11) * 0x1p-53 - 1.0; };
    const std::vector<FeelerObservation> truth = made(kAll, kEverything, true, sd);
    std::array<int, 10> covered{};
    double sum_of_chi_square = 0.0;
    int freedom = 0;
    for (int s = 0; s < kSurveys; ++s) {
        std::vector<FeelerObservation> readings = truth;
        for (FeelerObservation& each : readings)
            each.gap += kHalf * uniform();
        const FeelerFit fit = fit_feelers(readings, true);
        for (Eigen::Index i = 0; i < kUnknowns; ++i) {
            const auto u = static_cast<std::size_t>(i);
            const double off = fit.unknowns.value[i] - kAll.at(u);
            if (std::abs(off) < 1.95996 * std::sqrt(fit.unknowns.covariance(i, i))) ++covered.at(u);
        }
        sum_of_chi_square += fit.chi_square;
        freedom = fit.freedom;
    }
    for (const int each : covered)
        CHECK(each / static_cast<double>(kSurveys) == Approx(0.95).epsilon(0.0138 / 0.95));  // 4 sd
    // Each survey's chi-square has an sd under sqrt(2 * 14) = 5.3, so the mean one under 0.084.
    CHECK(std::abs(sum_of_chi_square / kSurveys - freedom) < 4 * 0.084);
}

TEST_CASE("where there is no offset and normal errors, 1 survey in 20 sees one") {
    constexpr int kSurveys = 4000;
    std::mt19937_64 random(6);
    std::normal_distribution<double> error(0.0, 0.01);
    int offsets = 0;
    int unlikely = 0;
    for (int s = 0; s < kSurveys; ++s) {
        std::vector<FeelerObservation> readings = made({0.25}, {});
        for (FeelerObservation& each : readings)
            each.gap += error(random);
        const FeelerFit fit = fit_feelers(readings, true);
        if (vector_of(fit, FeelerTerm::offset, 1.0).seen) ++offsets;
        if (trialfit::numerics::chi_square_survival(fit.chi_square, fit.freedom) < 0.05) ++unlikely;
    }
    // 1 sd of a share of 0.05 among 4,000 is 0.0034; within 4 of them.
    CHECK(std::abs(offsets / static_cast<double>(kSurveys) - 0.05) < 0.0138);
    CHECK(std::abs(unlikely / static_cast<double>(kSurveys) - 0.05) < 0.0138);
}

TEST_CASE("the best setting is the best that trying every setting finds") {
    const FeelerFit fit = fit_feelers(made(kAll, kEverything), true);
    const GapReach best = best_setting(fit.unknowns);
    double least = -1.0;
    double most = 1.0;
    constexpr int kSteps = 400;
    FeelerUnknowns moved = fit.unknowns;
    for (int i = -kSteps; i <= kSteps; ++i) {
        for (int j = -kSteps; j <= kSteps; ++j) {
            moved.value[1] = 0.05 * i / kSteps;
            moved.value[2] = 0.05 * j / kSteps;
            double tightest = 1.0;
            double widest = 0.0;
            for (const double z : {-1.0, 1.0}) {
                const auto& v = moved.value;
                const double off = std::hypot(v[1] + z * v[6], v[2] + z * v[7]) +
                                   std::hypot(v[3] + z * v[8], v[4] + z * v[9]);
                tightest = std::min(tightest, v[0] + z * v[5] - off);
                widest = std::max(widest, v[0] + z * v[5] + off);
            }
            least = std::max(least, tightest);
            most = std::min(most, widest);
        }
    }
    // Steps of 0.000125 either way.
    CHECK(least <= best.least.is + 1e-12);
    CHECK(best.least.is - least < 0.0002);
    CHECK(most >= best.most.is - 1e-12);
    CHECK(most - best.most.is < 0.0002);
    // What evening up at half height leaves is no better.
    CHECK(evened_up(fit.unknowns).least.is <= best.least.is + 1e-12);
    CHECK(as_it_lies(fit.unknowns).least.is < evened_up(fit.unknowns).least.is);
}

TEST_CASE("a gap's least, as the fitted gap has it round clock, turn and height") {
    const FeelerFit fit = fit_feelers(made(kAll, kEverything), true);
    double least = 1.0;
    double most = 0.0;
    for (int clock = 0; clock < 360; ++clock)
        for (int rotor = 0; rotor < 360; ++rotor)
            for (const double z : {-1.0, 0.0, 1.0}) {
                const double here = gap(kAll, clock, rotor, z, true);
                least = std::min(least, here);
                most = std::max(most, here);
            }
    // Half a degree off the tightest place loses 0.1 (1 - cos 0.5 deg) = 0.000004.
    CHECK(as_it_lies(fit.unknowns).least.is == Approx(least).epsilon(1e-4));
    CHECK(as_it_lies(fit.unknowns).most.is == Approx(most).epsilon(1e-4));
}
