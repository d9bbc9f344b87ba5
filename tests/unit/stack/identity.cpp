// SPDX-License-Identifier: MIT
// Sizes are told apart by where they stand in the job, not by what was written.
#include <doctest/doctest.h>

#include <support/jobs.hpp>
#include <trialfit/stack/bounds.hpp>
#include <trialfit/stack/change/carry_out.hpp>
#include <trialfit/stack/model/model.hpp>
#include <variant>

namespace job = trialfit::job;
using job::SizeRole;
using namespace trialfit::stack;
using namespace trialfit::testing;

namespace {

Model assembled(const job::Job& job) {
    return std::get<Model>(Model::of(job));
}

// A lid on a floor over two shims that are alike in all that is written of them.
job::Job over_two_shims() {
    job::Job job;
    job.parts.push_back(PartOf("floor", "top"));
    PartOf lid("lid", "under");
    lid.face("over", given(5.0, 0.05), "under");
    job::Seat seat = on_face(0, {0, 0});
    seat.shims = job::Shims{.fitted = {given(0.5, 0.01), given(0.5, 0.01)}};
    lid.seat(seat);
    job.parts.push_back(lid);
    return job;
}

}  // namespace

TEST_CASE("two shims that are alike are two sizes") {
    const job::Job job = over_two_shims();
    const Model model = assembled(job);
    const auto first = model.column_of({SizeRole::shim, 1, 0, 0});
    const auto second = model.column_of({SizeRole::shim, 1, 0, 1});
    REQUIRE(first);
    REQUIRE(second);
    CHECK(*first != *second);
    CHECK_FALSE(model.column_of({SizeRole::shim, 1, 0, 2}));
    const Form height = model.gap({.face = {0, 0}}, {.face = {1, 1}});
    CHECK(height.sensitivities.coeff(*first) == 1.0);
    CHECK(height.sensitivities.coeff(*second) == 1.0);
}

TEST_CASE("work says which sizes it kept, dropped and made") {
    const job::Job job = over_two_shims();
    const Model model = assembled(job);
    Changes changes;
    changes.stacks.push_back(
        {.part = 1,
         .seat = 0,
         .shims = {{.shim = given(0.2, 0.01)}, {.shim = given(0.5, 0.01), .fitted = 1}}});
    changes.cuts.push_back({.part = 1, .face = 1, .measure = 0, .size = given(4.0, 0.02)});
    const job::Job after = carried_out(model, changes);
    const job::SizesCarried& carried = after.carried;
    CHECK(carried.after({SizeRole::shim, 1, 0, 1}) == job::SizeId{SizeRole::shim, 1, 0, 1});
    CHECK_FALSE(carried.after({SizeRole::shim, 1, 0, 0}));
    CHECK(carried.made.contains({SizeRole::shim, 1, 0, 0}));
    // The cut face is new metal; its old size leads to the face as it was, listed last.
    CHECK(carried.after({SizeRole::dimension, 1, 1}) == job::SizeId{SizeRole::dimension, 1, 2});
    CHECK(carried.made.contains({SizeRole::dimension, 1, 1}));
    const Bounds height =
        bounds(assembled(after), assembled(after).gap({.face = {0, 0}}, {.face = {1, 1}}), 1.0);
    CHECK(height.nominal == doctest::Approx(4.7).epsilon(1e-13));
}

TEST_CASE("what bound two shims that are alike goes on binding the one that stays") {
    job::Job job = over_two_shims();
    // The lid's height over both shims, read to 0.001.
    job.parts[1].seats.push_back(job.parts[1].seats.front());
    job.parts[1].seats[1].kind = job::SeatKind::face_at_offset;
    job.parts[1].seats[1].shims.reset();
    job.parts[1].seats[1].offset = given(1.01, 0.001);
    const Model model = assembled(job);
    REQUIRE_FALSE(model.ties().empty());
    Changes changes;
    changes.stacks.push_back(
        {.part = 1, .seat = 0, .shims = {{.shim = given(0.5, 0.01), .fitted = 0}}});
    const job::Job after = carried_out(model, changes);
    // The offset was a fact about both: the second seat is gone, and its size with it.
    CHECK_FALSE(after.carried.after({SizeRole::seat_offset, 1, 1}));
    CHECK(after.carried.after({SizeRole::shim, 1, 0, 0}) == job::SizeId{SizeRole::shim, 1, 0, 0});
    const auto out = after.carried.after({SizeRole::shim, 1, 0, 1});
    REQUIRE(out);
    CHECK(out->role == SizeRole::dimension);  // laid aside, as a part of its own
    const auto then = model_after(model, after);
    CHECK(std::holds_alternative<Model>(then));
}
