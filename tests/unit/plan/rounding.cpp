// SPDX-License-Identifier: MIT
// Rules of rounding asked for at a seat: the stack is what the rule makes of the thickness wanted.
#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <random>
#include <support/jobs.hpp>
#include <trialfit/plan/job/job_plan.hpp>
#include <variant>

#include "support/messages.hpp"

namespace job = trialfit::job;
namespace quantity = trialfit::quantity;
namespace stack = trialfit::stack;
using namespace trialfit::plan;
using namespace trialfit::testing;

namespace {

// A shaft in a housing with `room` to spare; 0.30 of float is aimed at, anything from 0.1 to 0.6
// will do. (E1 of the published shim sums: a crank shimmed to 0.30 of float.)
job::Job with_room(double room, job::RoundingWay way, double step, double holds = 0.0) {
    job::Job job;
    PartOf housing("housing", "left");
    job.parts.push_back(housing.face("right", given(60.0 + room), "left"));
    PartOf shaft("shaft", "left");
    shaft.face("right", given(60.0), "left");
    job::Seat seat = on_face(0, {.part = 0, .face = 0});
    job::Shims shims;
    for (const double size : {1.0, 2.0, 0.1, 0.15, 0.2, 0.25, 0.3, 0.5})
        shims.stock.push_back({.thickness = given(size, holds)});
    shims.at_most = 4;
    shims.round = job::Rounding{.way = way, .step = step};
    seat.shims = shims;
    shaft.seat(seat);
    job.parts.push_back(shaft);
    job::Check play{.name = "float"};
    play.of = job::GapOf{.inboard = {.part = 1, .face = 1}, .outboard = {.part = 0, .face = 1}};
    play.at_least = job::Limit{.value = 0.1, .written = "0.1"};
    play.at_most = job::Limit{.value = 0.6, .written = "0.6"};
    play.aim = job::Limit{.value = 0.3, .written = "0.3"};
    job.checks.push_back(play);
    return job;
}

PlanAnswer planned(const job::Job& job) {
    const auto built = stack::Model::of(job);
    return trialfit::plan::plan(std::get<stack::Model>(built), {});
}

// The rule in whole thousandths, written again.
int brought(int wanted, job::RoundingWay way, int step) {
    const int below = wanted / step * step;
    const int over = wanted - below;
    switch (way) {
        case job::RoundingWay::down:
            return below;
        case job::RoundingWay::up:
            return over == 0 ? below : below + step;
        case job::RoundingWay::nearest:
            return 2 * over <= step ? below : below + step;
        case job::RoundingWay::last_digit:
            break;
    }
    const int digit = (2 * over < step ? below : below + step) / step % 10;
    const int tens = (2 * over < step ? below : below + step) - digit * step;
    return tens + (digit <= 2 ? 0 : digit <= 7 ? 5 : 10) * step;
}

// The fewest of the job's shims that make up `height` thousandths, at most `pieces` of them.
std::size_t fewest(int height, std::size_t pieces) {
    constexpr std::size_t kNoStack = 99;
    if (height == 0) return 0;
    if (height < 0 || pieces == 0) return kNoStack;
    std::size_t least = kNoStack;
    for (const int size : {1000, 2000, 100, 150, 200, 250, 300, 500})
        least = std::min(least, 1 + fewest(height - size, pieces - 1));
    return least;
}

}  // namespace

TEST_CASE("the published rule: 2.26 and 2.28 become 2.25, 2.33 becomes 2.30") {
    // V-twin workshop pages on shimming a crank: "round down". Shims of 0.05 steps, float 0.30.
    const double wanted_and_fitted[][2] = {{2.26, 2.25}, {2.28, 2.25}, {2.33, 2.30}};
    for (const auto& each : wanted_and_fitted) {
        const double wanted = each[0];
        const double fitted = each[1];
        CAPTURE(wanted);
        const PlanAnswer answer = planned(with_room(wanted + 0.30, job::RoundingWay::down, 0.05));
        REQUIRE(answer.plans.size() == 1);
        CHECK(answer.proven);
        const StackMade& made = answer.plans.front().shims.front();
        CHECK(made.height == doctest::Approx(fitted));
        REQUIRE(made.wanted);
        CHECK(*made.wanted == doctest::Approx(wanted));
        // The fewest pieces: 2.0 + 0.25, and 2.0 + 0.3.
        CHECK(made.stack.size() == 2);
    }
}

TEST_CASE("every rule, at thicknesses at random: what it says, in the fewest pieces") {
    std::mt19937 random(3);
    using Way = job::RoundingWay;
    for (const auto& [each_way, each_step] :
         {std::pair(Way::down, 0.05), std::pair(Way::up, 0.05), std::pair(Way::nearest, 0.05),
          std::pair(Way::nearest, 0.1), std::pair(Way::last_digit, 0.01)}) {
        const Way way = each_way;
        const double step = each_step;
        for (int n = 0; n < 30; ++n) {
            // To the thousandth, so that halves and whole steps are met with.
            const int thousandths = std::uniform_int_distribution<int>(1000, 3000)(random);
            const double wanted = thousandths / 1000.0;
            CAPTURE(wanted);
            CAPTURE(step);
            const PlanAnswer answer = planned(with_room(wanted + 0.30, way, step));
            REQUIRE(!answer.plans.empty());
            const int fitted =
                brought(thousandths, way, static_cast<int>(std::lround(1000.0 * step)));
            const StackMade& made = answer.plans.front().shims.front();
            CHECK(made.height == doctest::Approx(fitted / 1000.0));
            CHECK(made.stack.size() == fewest(fitted, 4));
        }
    }
}

TEST_CASE("where the rule's thickness cannot be had, the rule is named") {
    job::Job job = with_room(2.33 + 0.30, job::RoundingWay::down, 0.05);
    job.parts[1].seats[0].shims->stock = {{.thickness = given(2.2)}, {.thickness = given(2.25)}};
    const PlanAnswer answer = planned(job);
    CHECK(answer.plans.empty());
    CHECK(answer.proven);
    REQUIRE(answer.conflict);
    const auto& members = answer.conflict->members;
    CHECK(std::any_of(members.begin(), members.end(), [](const Stands& each) {
        return each.kind == Stands::Kind::rounding && each.name == "shaft";
    }));
}

TEST_CASE("a rule with no aim to go by is left out, and said to be") {
    job::Job job = with_room(2.33 + 0.30, job::RoundingWay::down, 0.05);
    job.checks[0].aim.reset();
    const PlanAnswer answer = planned(job);
    REQUIRE(!answer.plans.empty());
    REQUIRE(answer.notes.size() == 1);
    CHECK(message<NotRounded>(answer.notes) != nullptr);
}

TEST_CASE("the rule binds the nominal stack: what the shims hold is no part of it") {
    // Every want from 1.14 to 2.00 by the hundredth: a shim that holds 0.005 is half the last
    // digit.
    using Way = job::RoundingWay;
    for (const auto& [each_way, each_step] :
         {std::pair(Way::down, 0.05), std::pair(Way::up, 0.05), std::pair(Way::nearest, 0.05),
          std::pair(Way::last_digit, 0.01)}) {
        const Way way = each_way;
        const double step = each_step;
        const int thousandths = static_cast<int>(std::lround(1000.0 * step));
        for (int hundredths = 114; hundredths <= 200; ++hundredths) {
            const double wanted = hundredths / 100.0;
            CAPTURE(wanted);
            CAPTURE(static_cast<int>(way));
            const PlanAnswer answer = planned(with_room(wanted + 0.30, way, step, 0.005));
            REQUIRE(!answer.plans.empty());
            CHECK(answer.proven);
            CHECK(answer.plans.front().shims.front().height ==
                  doctest::Approx(brought(10 * hundredths, way, thousandths) / 1000.0));
        }
    }
}
