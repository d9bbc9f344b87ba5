// SPDX-License-Identifier: MIT
// Plans of jobs with so many rings that not every pair is asked for from the first, and searches
// that end when they are told to.
#include <doctest/doctest.h>

#include <atomic>
#include <chrono>
#include <cstddef>
#include <support/jobs.hpp>
#include <trialfit/plan/job/job_plan.hpp>
#include <trialfit/stack/check/check.hpp>
#include <utility>
#include <variant>

namespace job = trialfit::job;
namespace numerics = trialfit::numerics;
namespace stack = trialfit::stack;
using namespace trialfit::plan;
using namespace trialfit::testing;

namespace {

stack::Model assembled(const job::Job& job) {
    return std::get<stack::Model>(stack::Model::of(job));
}

job::Seat at_offset(double offset, job::FaceRef against) {
    job::Seat seat{.kind = job::SeatKind::face_at_offset, .own = 0, .against = against};
    seat.offset = given(offset);
    return seat;
}

// A cover reaches down into a collar, and into a step that the collar hides. Both may be skimmed on
// the outside, to pass within the cover. Beside them stands a pile of washers.
job::Job hidden_step(int washers) {
    job::Job job = pile(washers);
    const auto disc = [](const char* name, double height) {
        PartOf part(name, "under");
        part.face("top", given(2.0), "under").ring("disc", "under", "top", 40.0, 100.0);
        part.seat(at_offset(height, {.part = 0, .face = 0}));
        return job::Part(part);
    };
    for (const auto& [name, height] : {std::pair{"step", 4.0}, std::pair{"collar", 6.5}}) {
        job.parts.push_back(disc(name, height));
        job.parts.back().skims.push_back({.ring = 0, .bore = false, .until = 60.0, .cost = 1.0});
    }
    PartOf cover("cover", "under");
    cover.face("top", given(6.0), "under").ring("rim", "under", "top", 70.0, 100.0);
    cover.seat(at_offset(5.0, {.part = 0, .face = 0}));
    job.parts.push_back(cover);
    job.air_gaps.push_back({.name = "passes",
                            .one = {.part = washers + 2, .index = 0},
                            .other = {.part = washers + 3, .index = 0},
                            .at_least = job::Limit{.value = 0.0, .written = "0"}});
    return job;
}

}  // namespace

TEST_CASE("a ring that work brings to light is asked to clear, in a large job as in a small one") {
    const job::Job small_job = hidden_step(3);
    const PlanAnswer small = trialfit::plan::plan(assembled(small_job), {.top = 1});
    const job::Job large_job = hidden_step(stack::kAllPairsUpTo);
    const stack::Model large_model = assembled(large_job);
    REQUIRE(stack::check(large_model, {}).implied_left_out);
    const PlanAnswer large = trialfit::plan::plan(large_model, {.top = 1});
    REQUIRE(small.plans.size() == 1);
    REQUIRE(large.plans.size() == 1);
    CHECK(small.plans[0].skims.size() == 2);
    CHECK(large.plans[0].skims.size() == 2);
    CHECK(large.plans[0].cost == doctest::Approx(small.plans[0].cost));
    CHECK(large.plans[0].proven);
    CHECK(large.plans[0].after.verdict == stack::Verdict::holds);
}

TEST_CASE("a thousand washers, a tenth of which may be cut, are planned in seconds") {
    job::Job job = pile(1000);
    for (std::size_t i = 1; i < job.parts.size(); i += 10)
        job.parts[i].cuts.push_back({.face = 1, .measure = 0, .keep = 0.5, .holds = 0.01});
    job::Check height;
    height.name = "height";
    height.of =
        job::GapOf{.inboard = {.part = 0, .face = 0}, .outboard = {.part = 1000, .face = 1}};
    height.at_most = job::Limit{.value = 1009.2, .written = "1009.2"};
    job.checks.push_back(height);
    const auto begun = std::chrono::steady_clock::now();
    numerics::SearchControl watch;
    watch.seconds = 7.0;
    const PlanAnswer answer = trialfit::plan::plan(assembled(job), {.top = 1, .watch = watch});
    const std::chrono::duration<double> taken = std::chrono::steady_clock::now() - begun;
    CHECK(taken.count() < 30.0);  // with sanitizers, on a machine under load
    REQUIRE(answer.plans.size() == 1);
    CHECK(answer.plans[0].cuts.size() == 2);
    CHECK(answer.plans[0].after.verdict == stack::Verdict::holds);
}

TEST_CASE("a plan that is stopped before it begins says so, and proves nothing") {
    const job::Job job = hidden_step(3);
    const stack::Model model = assembled(job);
    const std::atomic<bool> stop{true};
    numerics::SearchControl watch;
    watch.stop = &stop;
    const PlanAnswer answer = trialfit::plan::plan(model, {.watch = watch});
    CHECK(answer.stopped);
    CHECK_FALSE(answer.proven);
    CHECK(answer.plans.empty());
    CHECK_FALSE(answer.conflict);
}
