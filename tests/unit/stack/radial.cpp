// SPDX-License-Identifier: MIT
#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <string>
#include <support/jobs.hpp>
#include <trialfit/stack/check/check.hpp>
#include <trialfit/stack/clearance/clearances.hpp>
#include <trialfit/stack/radial/radial.hpp>
#include <utility>
#include <variant>

using namespace trialfit;
using namespace trialfit::stack;
using namespace trialfit::testing;

namespace {

job::Centring loose(int on, double clearance) {
    return {
        .by = job::CentredBy::bolts, .on = on, .on_written = "case", .clearance = given(clearance)};
}

// A rotor of 50 inside a stator of 50.4, both 20 long on a case.
job::Job rotor_in_stator() {
    job::Job job;
    job.parts.push_back(PartOf("case", "face").face("far", given(30.0), "face"));
    PartOf stator("stator", "in");
    stator.face("out", given(20.0), "in").ring("poles", "in", "out", 50.4, 90);
    stator.seat(on_face(0, {0, 0}));
    PartOf rotor("rotor", "in");
    rotor.turns().face("out", given(20.0), "in").ring("body", "in", "out", 10, 50);
    rotor.seat(on_face(0, {0, 0}));
    job.parts.push_back(stator);
    job.parts.push_back(rotor);
    return job;
}

CheckAnswer radial_checked(const job::Job& job) {
    return std::get<CheckAnswer>(check(job, {}));
}

double least_gap(const job::Job& job) {
    return radial_checked(job).radial.at(0).gap.nominal;
}

}  // namespace

TEST_CASE("without centring or runout, radial gaps are not assessed") {
    const CheckAnswer answer = radial_checked(rotor_in_stator());
    CHECK(answer.radial.empty());
    const auto radial = [](const NotAssessed& each) {
        const auto* const left_out = std::get_if<LeftOut>(&each);
        return left_out != nullptr && *left_out == LeftOut::radial;
    };
    CHECK(std::count_if(answer.not_assessed.begin(), answer.not_assessed.end(), radial) == 1);
}

TEST_CASE("the least gap of two eccentric circles over a whole turn") {
    // The still circle is off by e, the turning one by r: the gap at angle a of a turn t is the
    // difference of the radii less the distance of the centres along a, to first order exact where
    // both lie along a. Sampled over the turn and round the circle.
    job::Job job = rotor_in_stator();
    constexpr double kStillOff = 0.05;
    constexpr double kTurningOff = 0.03;
    job.parts[1].centred = loose(0, 2.0 * kStillOff);
    job.parts[2].runout = {{.is = given(2.0 * kTurningOff)}};
    double least = 1.0;
    constexpr int kSteps = 360;
    for (int t = 0; t < kSteps; ++t) {
        const double turn = 2.0 * M_PI * t / kSteps;
        const double x = kTurningOff * std::cos(turn) - kStillOff;
        const double y = kTurningOff * std::sin(turn);
        least = std::min(least, 25.2 - 25.0 - std::hypot(x, y));
    }
    CHECK(least_gap(job) == doctest::Approx(least).epsilon(1e-12));
    CHECK(least_gap(job) == doctest::Approx(0.12).epsilon(1e-9));
}

TEST_CASE("a cocked stator takes a gap off in proportion to the height over its seat") {
    // By hand: 0.95 over 100 is 0.0095 of slope, so 0.19 at 20.
    job::Job job = rotor_in_stator();
    job.parts[1].rings[0].bore = given(50.84);
    job.parts[1].face_runout = job::FaceRunout{.is = given(0.95), .dia = 100.0};
    const auto built = Model::of(job);
    const RadialQuestion asked = radial_question(std::get<Model>(built), {1, 0}, {2, 0});
    REQUIRE(asked.least.size() == 2);
    const auto at = [&](std::size_t end) {
        return value(asked.least[end], std::get<Model>(built).columns().nominal);
    };
    CHECK(at(0) == doctest::Approx(0.42));
    CHECK(at(1) == doctest::Approx(0.42 - 0.19));
}

TEST_CASE("two runouts at different heights are a line: beyond them it goes on") {
    job::Job job = rotor_in_stator();
    job.parts[2].runout = {{.is = given(0.0), .face = 0}, {.is = given(0.04), .face = 1}};
    CHECK(least_gap(job) == doctest::Approx(0.2 - 0.02));
    job.parts[2].faces.push_back({.name = "middle", .dimensions = {{given(10.0), 0}}});
    job.parts[2].runout[1].face = 2;
    CHECK(least_gap(job) == doctest::Approx(0.2 - 0.04));
}

TEST_CASE("warm, both diameters grow with their parts") {
    job::Job job = rotor_in_stator();
    job.parts[2].runout = {{.is = given(0.0)}};
    job.parts[1].material = "steel";
    job.parts[2].material = "aluminium";
    job.states = {{.name = "run", .at = {}, .all_c = 120.0, .part_c = {}}};
    // By hand: 25.2 (1 + 11.7e-4) - 25 (1 + 23.6e-4).
    const RadialGap gap = radial_checked(job).radial.at(0);
    CHECK(gap.gap.nominal == doctest::Approx(0.2 + 25.2 * 11.7e-4 - 25.0 * 23.6e-4));
    CHECK(gap.state == "run");
}

TEST_CASE("a bearing's own rings are left out, and what is missing is named") {
    job::Job job = rotor_in_stator();
    job.parts[1].centred = job::Centring{
        .by = job::CentredBy::bearing, .on = 2, .on_written = "rotor", .clearance = given(0.4)};
    CHECK(radial_checked(job).radial.empty());
    job.parts[1].centred->clearance = given(0.3);
    const RadialGap gap = radial_checked(job).radial.at(0);
    CHECK(gap.not_given.empty());  // the ways meet at the rotor itself
    job.parts[1].centred = loose(0, 0.1);
    const auto missing = radial_checked(job).radial.at(0).not_given;
    CHECK(std::count(missing.begin(), missing.end(), NotGiven{NotGiven::What::runout, "rotor"}) ==
          1);
    CHECK(std::count(missing.begin(), missing.end(), NotGiven{NotGiven::What::centring, "rotor"}) ==
          1);
}

TEST_CASE("in a job of many rings, every radial gap that fails is found, and far pairs are not") {
    job::Job job;
    job.radial_clearance = 0.1;
    job.parts.push_back(PartOf("case", "face"));
    constexpr int kPairs = 100;
    for (int i = 0; i < kPairs; ++i) {
        PartOf still("still" + std::to_string(i), "in");
        still.face("out", given(1.0), "in").ring("ring", "in", "out", 40.0 + i % 7, 60);
        PartOf turning("turning" + std::to_string(i), "in");
        turning.turns().face("out", given(1.0), "in").ring("ring", "in", "out", 10, 39.9);
        still.seat(on_face(i == 0 ? 0 : 1, {i == 0 ? 0 : 2 * i - 1, i == 0 ? 0 : 1}));
        turning.seat(on_face(0, {2 * i + 1, 0}));
        job.parts.push_back(still);
        job.parts.push_back(turning);
        job.parts.back().runout = {{.is = given(i == 50 ? 0.2 : 0.0)}};
    }
    for (int i = 1; i < kPairs; ++i)
        job.parts[static_cast<std::size_t>(2 * i + 1)].seats[0].own = 0;
    const auto built = Model::of(job);
    REQUIRE(std::holds_alternative<Model>(built));
    std::vector<Model> states{std::get<Model>(built)};
    const std::vector<RadialGap> found = radial_gaps(states, Judge::worst, 1.0);
    const auto failing = std::count_if(found.begin(), found.end(), [](const RadialGap& each) {
        return each.verdict != Verdict::holds;
    });
    CHECK(failing >= 15);  // of bores of 40, every seventh: a gap of 0.05
    CHECK(found.size() < 2 * kPairs);
}
