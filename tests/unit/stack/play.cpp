// SPDX-License-Identifier: MIT
// Play is a movement: a gap is judged where the part moves to, whatever the judge.
#include <doctest/doctest.h>

#include <support/jobs.hpp>
#include <trialfit/stack/bounds.hpp>
#include <trialfit/stack/check/check.hpp>
#include <trialfit/stack/model/model.hpp>
#include <variant>

using namespace trialfit;
using namespace trialfit::stack;
using testing::given;
using testing::PartOf;

namespace {

constexpr double kNear = 1e-12;

// A shaft that floats by `play` about 10.55 from the floor, over a land at 10.
job::Job floating(quantity::Size play, job::SeatKind kind = job::SeatKind::face_at_offset,
                  job::Pushed pushed = job::Pushed::not_stated) {
    job::Job job;
    job.parts.push_back(PartOf("case", "floor").face("land", given(10.0), "floor"));
    job::Seat seat{.kind = kind, .own = 0, .against = {.part = 0, .face = 0}};
    if (kind == job::SeatKind::face_at_offset) seat.offset = given(10.55);
    if (kind == job::SeatKind::face_on_face) seat.against.face = 1;
    seat.play = job::Given{.size = play};
    seat.pushed = pushed;
    job.parts.push_back(PartOf("shaft", "shoulder").turns().seat(seat));
    return job;
}

Bounds gap_of(const job::Job& job) {
    const auto model = Model::of(job);
    const Model& made = std::get<Model>(model);
    return bounds(made, made.gap({.face = {0, 1}}, {.face = {1, 0}}), 1.0);
}

}  // namespace

TEST_CASE("a float about a stated offset is half of it each way, in RSS as in the worst case") {
    const Bounds gap = gap_of(floating(quantity::exact(0.2)));
    CHECK(gap.nominal == doctest::Approx(0.55).epsilon(kNear));
    CHECK(gap.worst.lo == doctest::Approx(0.45).epsilon(kNear));
    CHECK(gap.rss.lo == doctest::Approx(0.45).epsilon(kNear));
    CHECK(gap.rss.hi == doctest::Approx(0.65).epsilon(kNear));
    CHECK(gap.travel() == doctest::Approx(0.1).epsilon(kNear));
    for (const Judge judge : {Judge::worst, Judge::rss}) {
        CHECK(verdict(gap, {.least = 0.5, .most = 1e9}, judge) == Verdict::fails);
        CHECK(verdict(gap, {.least = -1e9, .most = 0.6}, judge) == Verdict::fails);
        CHECK(verdict(gap, {.least = 0.45, .most = 0.65}, judge) == Verdict::holds);
    }
}

TEST_CASE("a play with limits of its own adds its doubt to its movement") {
    // nominal - |k| P_mid/2 - |k| (P_max - P_min)/4, the last alone by root-sum-square.
    const Bounds gap = gap_of(floating(quantity::toleranced(0.2, -0.1, 0.1)));
    CHECK(gap.least().nominal == doctest::Approx(0.45).epsilon(kNear));
    CHECK(gap.worst.lo == doctest::Approx(0.40).epsilon(kNear));
    CHECK(gap.worst.hi == doctest::Approx(0.70).epsilon(kNear));
    CHECK(gap.rss.lo == doctest::Approx(0.40).epsilon(kNear));
    CHECK(verdict(gap, {.least = 0.42, .most = 1e9}, Judge::worst) == Verdict::doubtful);
}

TEST_CASE("a part on a face floats off it, outboard only") {
    const Bounds gap = gap_of(floating(quantity::exact(0.3), job::SeatKind::face_on_face));
    CHECK(gap.nominal == 0.0);
    CHECK(gap.worst.lo == doctest::Approx(0.0));
    CHECK(gap.worst.hi == doctest::Approx(0.3).epsilon(kNear));
}

TEST_CASE("an offset measured with the part pushed to one end leaves the play on the other side") {
    const auto with = [](job::Pushed pushed) {
        return gap_of(floating(quantity::exact(0.2), job::SeatKind::face_at_offset, pushed));
    };
    CHECK(with(job::Pushed::in).worst.lo == doctest::Approx(0.55).epsilon(kNear));
    CHECK(with(job::Pushed::in).worst.hi == doctest::Approx(0.75).epsilon(kNear));
    CHECK(with(job::Pushed::out).worst.lo == doctest::Approx(0.35).epsilon(kNear));
    CHECK(with(job::Pushed::out).worst.hi == doctest::Approx(0.55).epsilon(kNear));
}

TEST_CASE("why calls a play a movement and promises nothing of knowing it better") {
    job::Job job = floating(quantity::toleranced(0.2, -0.1, 0.1));
    job::Check check{.name = "clear", .of = job::GapOf{{0, 1}, {1, 0}}};
    check.at_least = job::Limit{.value = 0.42};
    job.checks.push_back(check);
    const auto found = why(job, "clear", {});
    const auto& answer = std::get<WhyAnswer>(found);
    REQUIRE(answer.chain.size() == 3);
    int movements = 0;
    for (const Contribution& each : answer.chain) {
        if (!each.moves) continue;
        ++movements;
        CHECK(each.if_halved.worst == answer.value.worst);
        CHECK(each.sensitivity == doctest::Approx(-0.5));
    }
    CHECK(movements == 1);
}

TEST_CASE("why explains the limit that decides") {
    job::Job job = floating(quantity::exact(0.2));
    job::Check check{.name = "clear", .of = job::GapOf{{0, 1}, {1, 0}}};
    check.at_least = job::Limit{.value = 0.1};
    check.at_most = job::Limit{.value = 0.6};
    job.checks.push_back(check);
    const auto found = why(job, "clear", {});
    const auto& answer = std::get<WhyAnswer>(found);
    CHECK(answer.side == Side::at_most);
    CHECK(answer.verdict == Verdict::fails);
}
