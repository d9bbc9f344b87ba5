// SPDX-License-Identifier: MIT
#include <doctest/doctest.h>

#include <support/jobs.hpp>
#include <trialfit/stack/bounds.hpp>
#include <trialfit/stack/change/as_built.hpp>
#include <trialfit/stack/check/check.hpp>

namespace job = trialfit::job;
namespace quantity = trialfit::quantity;
using namespace trialfit::stack;
using namespace trialfit::testing;

namespace {

Bounds gap(const job::Job& job, const char* inboard, const char* outboard) {
    const Model model = std::get<Model>(model_for(job, {}));
    const auto find = [&](const std::string& name) {
        for (int p = 0; p < static_cast<int>(job.parts.size()); ++p)
            for (int f = 0;
                 f < static_cast<int>(job.parts[static_cast<std::size_t>(p)].faces.size()); ++f)
                if (job::name(job, job::FaceRef{p, f}) == name) return job::FaceRef{p, f};
        FAIL("no face " << name);
        return job::FaceRef{};
    };
    return bounds(model, model.gap({.face = find(inboard)}, {.face = find(outboard)}), 1.0);
}

job::Job built(const job::Job& job, std::size_t entries = 100) {
    return std::get<job::Job>(as_built(job, entries));
}

job::Cut cut(int face, int measure) {
    return {.at = {}, .face = face, .measure = measure, .keep = 1.0};
}

job::RecordEntry turned(const char* date, job::FaceRef face, double size, double half_width) {
    job::RecordEntry entry;
    entry.date = date;
    entry.as_cut.push_back({.face = face, .size = given(size, half_width)});
    return entry;
}

// A plate on a floor, with a tip that is measured from its front and a lid shimmed upon it.
job::Job stack_of_three() {
    job::Job job;
    job.parts.push_back(PartOf("floor", "top"));
    PartOf plate("plate", "back");
    plate.face("front", given(10.0, 0.1), "back");
    plate.face("tip", given(3.0, 0.01), "front");
    plate.seat(on_face(0, {0, 0}));
    job.parts.push_back(plate);
    job.parts.back().cuts.push_back(cut(1, 0));
    PartOf lid("lid", "under");
    lid.face("top", given(4.0, 0.02), "under");
    job::Seat seat = on_face(0, {1, 1});
    seat.shims.emplace();
    seat.shims->fitted.push_back(given(1.0, 0.0));
    lid.seat(seat);
    job.parts.push_back(lid);
    job.parts.back().cuts.push_back(cut(0, 1));
    return job;
}

}  // namespace

TEST_CASE("a cut face moves to its size as cut, and what was measured from it stays") {
    job::Job job = stack_of_three();
    job.record.push_back(turned("2026-01-01", {.part = 1, .face = 1}, 5.0, 0.03));
    const job::Job now = built(job);
    CHECK(now.in_force == 1);
    // The face: the size as cut, whatever the front was before.
    CHECK(gap(now, "plate.back", "plate.front").nominal == doctest::Approx(5.0));
    CHECK(gap(now, "plate.back", "plate.front").worst.hi == doctest::Approx(5.03));
    // The tip: 10 + 3, with the old front's limits and its own.
    CHECK(gap(now, "plate.back", "plate.tip").nominal == doctest::Approx(13.0));
    CHECK(gap(now, "plate.back", "plate.tip").worst.hi == doctest::Approx(13.11));
    CHECK(gap(now, "plate.front", "plate.tip").worst.lo == doctest::Approx(8.0 - 0.03 - 0.11));
    // What sits on the face goes with it.
    CHECK(gap(now, "floor.top", "lid.under").nominal == doctest::Approx(6.0));
    CHECK(gap(now, "floor.top", "lid.under").worst.hi == doctest::Approx(6.03));
}

TEST_CASE("a face that is the part's zero is cut as any other") {
    job::Job job = stack_of_three();
    job.record.push_back(turned("2026-01-01", {.part = 2, .face = 0}, 3.5, 0.05));
    const job::Job now = built(job);
    CHECK(gap(now, "lid.under", "lid.top").nominal == doctest::Approx(3.5));
    CHECK(gap(now, "lid.under", "lid.top").worst.lo == doctest::Approx(3.45));
    CHECK(gap(now, "lid.under_before_cut", "lid.top").worst.lo == doctest::Approx(3.98));
    CHECK(gap(now, "floor.top", "lid.top").nominal == doctest::Approx(10.0 + 1.0 + 3.5));
}

TEST_CASE("the last entry is in force, any earlier one on request") {
    job::Job job = stack_of_three();
    job.record.push_back(turned("2026-01-01", {.part = 1, .face = 1}, 5.0, 0.03));
    job.record.push_back(turned("2026-02-01", {.part = 1, .face = 1}, 4.5, 0.03));
    job.record.back().fitted.push_back({.part = 2, .shims = {given(0.2, 0.01), given(0.1, 0.01)}});
    job.record.push_back({.at = {}, .date = "2026-03-01", .note = "looked at it"});
    CHECK(gap(built(job, 0), "floor.top", "lid.under").nominal == doctest::Approx(11.0));
    CHECK(gap(built(job, 1), "floor.top", "lid.under").nominal == doctest::Approx(6.0));
    CHECK(gap(built(job, 2), "floor.top", "lid.under").nominal == doctest::Approx(4.8));
    CHECK(gap(built(job, 2), "floor.top", "lid.under").worst.hi == doctest::Approx(4.85));
    CHECK(gap(built(job), "floor.top", "lid.under").worst.hi == doctest::Approx(4.85));
    // The tip has not moved at all.
    CHECK(gap(built(job), "plate.back", "plate.tip").worst.hi == doctest::Approx(13.11));
    CHECK(built(job, 1).in_force == 1);
    CHECK(built(job).in_force == 3);
    CHECK(built(job).parts.size() == 3);
}

TEST_CASE("a reading taken before a cut goes on binding what it was about") {
    job::Job job = stack_of_three();
    // Read better than the old front is known: front was 10.05, so the tip is at 13.05.
    job.readings.push_back({.name = "front as found",
                            .from = {.part = 1, .face = 0},
                            .to = {.part = 1, .face = 1},
                            .is = given(10.05, 0.001)});
    job.record.push_back(turned("2026-01-01", {.part = 1, .face = 1}, 5.0, 0.03));
    // And one after it, of the lid upon the new front.
    job.record.back().measured.push_back({.name = "lid on the plate",
                                          .from = {.part = 1, .face = 0},
                                          .to = {.part = 2, .face = 0},
                                          .is = given(6.01, 0.002),
                                          .entries = 1});
    const job::Job now = built((job));
    REQUIRE(now.readings.size() == 2);
    const Options options{.readings = {{.reading = 0, .jams = {}}, {.reading = 1, .jams = {}}}};
    const Model model = std::get<Model>(model_for(now, options));
    const auto between = [&](job::FaceRef a, job::FaceRef b) {
        return bounds(model, model.gap({.face = a}, {.face = b}), 1.0);
    };
    const Bounds tip = between({.part = 1, .face = 0}, {.part = 1, .face = 2});
    CHECK(tip.worst.lo == doctest::Approx(13.05 - 0.011));
    CHECK(tip.worst.hi == doctest::Approx(13.05 + 0.011));
    const Bounds front = between({.part = 1, .face = 0}, {.part = 1, .face = 1});
    CHECK(front.worst.lo == doctest::Approx(5.01 - 0.002));
    CHECK(front.worst.hi == doctest::Approx(5.01 + 0.002));
}
