// SPDX-License-Identifier: MIT
// What would have to give where there is no plan, and an at_most of which one of several
// differences has to keep.
#include <doctest/doctest.h>

#include <support/jobs.hpp>
#include <trialfit/plan/job/job_plan.hpp>
#include <variant>

namespace job = trialfit::job;
namespace stack = trialfit::stack;
using namespace trialfit::plan;
using namespace trialfit::testing;

namespace {

constexpr auto plate = job::FaceRef{.part = 1, .face = 1};

job::Check at_least(const char* name, job::FaceRef inboard, job::FaceRef outboard, double limit) {
    job::Check check{.name = name};
    check.of = job::GapOf{.inboard = inboard, .outboard = outboard};
    check.at_least = job::Limit{.value = limit, .written = "so much"};
    return check;
}

// A stator on a plate that may be cut, within a case's wall that it may lie over by `over` at most,
// and a flywheel over it.
job::Job stator_in_a_case(double over) {
    job::Job job;
    PartOf housing("case", "floor");
    housing.face("lip", given(8.0, 0.05), "floor").ring("wall", "floor", "lip", 100.0, 110.0);
    job.parts.push_back(housing);
    PartOf on("plate", "back");
    on.face("front", given(6.0, 0.03), "back");
    on.seat(on_face(0, {.part = 0, .face = 0}));
    job.parts.push_back(on);
    job.parts[1].cuts.push_back({.face = 1, .measure = 0, .keep = 5.0, .holds = 0.03});
    PartOf stator("stator", "base");
    stator.face("out", given(12.0, 0.2), "base").ring("coils", "base", "out", 40.0, 70.0);
    stator.seat(on_face(0, plate));
    job.parts.push_back(stator);
    PartOf flywheel("flywheel", "cup");
    job::Seat seat = on_face(0, {.part = 0, .face = 0});
    seat.kind = job::SeatKind::face_at_offset;
    seat.offset = given(17.5, 0.12);
    flywheel.seat(seat);
    job.parts.push_back(flywheel);
    job.checks.push_back(at_least("clear", {.part = 2, .face = 1}, {.part = 3, .face = 0}, 0.5));
    job::Check deep{.name = "deep"};
    deep.of = job::OverlapOf{.of = {2, 0}, .by = {0, 0}};
    deep.at_most = job::Limit{.value = over, .written = "so much"};
    job.checks.push_back(deep);
    return job;
}

// The case's lip may be cut, too, which another check all but forbids: 0.05 at most.
job::Job with_a_lip_to_cut(double over) {
    job::Job job = stator_in_a_case(over);
    job.parts[0].cuts.push_back({.face = 1, .measure = 0, .keep = 2.0, .holds = 0.03});
    job.checks.push_back(at_least("lip", {.part = 0, .face = 0}, {.part = 0, .face = 1}, 7.9));
    return job;
}

NoPlan no_plan(const job::Job& job) {
    const auto built = stack::Model::of(job);
    const PlanAnswer answer = trialfit::plan::plan(std::get<stack::Model>(built), {});
    REQUIRE(answer.plans.empty());
    REQUIRE(answer.conflict);
    CHECK(answer.conflict->sought);
    return *answer.conflict;
}

}  // namespace

TEST_CASE("of differences that nothing moves, the one least short is told, and gives") {
    job::Job job = stator_in_a_case(3.2);
    job.parts[1].faces[1].dimensions[0].distance = given(4.62, 0.03);
    job.parts[1].cuts.clear();
    const NoPlan why = no_plan(job);
    REQUIRE(why.relaxed);
    CHECK(why.relaxed->name == "deep");
    // case.lip - stator.base: 8.05 - 4.59 - 3.2
    CHECK(why.relaxed_by == doctest::Approx(0.26));
    CHECK(why.relaxed->difference == "case.lip - stator.base");
}

TEST_CASE("what a limit makes possible by giving meets every at_most, else it is not enough") {
    // Cut to f, the gap is 5.15 - f at least, and 0.5 of it is asked for: f = 4.65, where 5.03 can
    // be had. The overlap is then 8.05 - 4.62 = 3.43; at 5.03 it is 3.05.
    job::Job room = with_a_lip_to_cut(4.0);
    job::Job tight = with_a_lip_to_cut(3.2);
    for (const job::Job& job : {room, tight}) {
        const NoPlan why = no_plan(job);
        REQUIRE(why.relaxed);
        CHECK(why.relaxed->name == "clear");
        CHECK(why.relaxed_by == doctest::Approx(0.38));
    }
    // Asked for twice, neither of the two is enough alone, and the plate's keep has to give.
    room.checks.push_back(room.checks[0]);
    tight.checks.push_back(tight.checks[0]);
    const NoPlan keeps = no_plan(room);
    REQUIRE(keeps.relaxed);
    CHECK(keeps.relaxed->kind == Stands::Kind::keep);
    CHECK(keeps.relaxed_by == doctest::Approx(0.38));
    CHECK_FALSE(no_plan(tight).relaxed);
}

TEST_CASE("an at_most on tied sizes alone is judged by what they allow together") {
    job::Job job = stator_in_a_case(3.2);
    job.checks.erase(job.checks.begin());
    job.parts[0].faces[1].dimensions[0].distance = given(15.0, 0.05);
    job.parts[0].cuts.push_back({.face = 1, .measure = 0, .keep = 5.0, .holds = 0.05});
    // 9.7 to 10.3 and 10 to 10.2 leave 10 to 10.2.
    job.parts[1].faces[1].dimensions = {{.distance = given(10.0, 0.3), .from = 0},
                                        {.distance = given(10.1, 0.1), .from = 0}};
    job.parts[1].cuts.clear();
    // Another way to keep the limit, and a dear one: stator.out cut to no more than it allows.
    job.parts[2].cuts.push_back(
        {.face = 1, .measure = 0, .keep = 1.0, .holds = 0.05, .cost = 50.0});
    const auto built = stack::Model::of(job);
    const PlanAnswer answer = trialfit::plan::plan(std::get<stack::Model>(built), {});
    REQUIRE(!answer.plans.empty());
    const PlanMade& best = answer.plans.front();
    REQUIRE(best.cuts.size() == 1);
    // 3.2 over the least that the plate may be, less what the lathe holds.
    CHECK(best.cuts[0].finish == doctest::Approx(13.15));
    CHECK(best.proven);
}
