// SPDX-License-Identifier: MIT
#include <doctest/doctest.h>

#include <algorithm>
#include <string>
#include <support/jobs.hpp>
#include <trialfit/stack/check/check.hpp>
#include <trialfit/stack/states.hpp>
#include <variant>

using namespace trialfit;
using namespace trialfit::stack;
using namespace trialfit::testing;

namespace {

// A resin coil 20 high on a floor, and a floor of a cup 20.2 above it on a steel post.
job::Job coil_under_cup() {
    job::Job job;
    job.materials = {{.name = "resin", .at = {}, .expansion_per_k = 100e-6}};
    job.parts.push_back(PartOf("post", "foot").face("top", given(20.2), "foot"));
    PartOf coil("coil", "base");
    coil.face("out", given(20.0), "base").ring("wire", "base", "out", 30, 60);
    coil.seat(on_face(0, {0, 0}));
    PartOf cup("cup", "floor");
    cup.turns().face("back", given(5.0), "floor").ring("web", "floor", "back", 20, 60);
    cup.seat(on_face(0, {0, 1}));
    job.parts.push_back(coil);
    job.parts.push_back(cup);
    job.parts[0].material = "steel";
    job.parts[1].material = "resin";
    job.states = {{.name = "run", .at = {}, .all_c = 120.0, .part_c = {{0, 70.0}}}};
    return job;
}

CheckAnswer states_checked(const job::Job& job) {
    return std::get<CheckAnswer>(check(job, {}));
}

// What the first figure that is not judged stands on.
GrowthNotKnown growth_lacking(const CheckAnswer& answer) {
    REQUIRE_FALSE(answer.not_judged.empty());
    return std::get<GrowthNotKnown>(answer.not_judged.front().why);
}

}  // namespace

TEST_CASE("a gap is judged in every state, and the one that decides is named") {
    const CheckAnswer answer = states_checked(coil_under_cup());
    REQUIRE(answer.states.size() == 2);  // as measured, and the job's own
    const Clearance& pair = answer.clearances.at(0);
    CHECK(pair.state == "run");
    // By hand: 0.2 + 20.2 x 11.7e-6 x 50 - 20 x 100e-6 x 100.
    CHECK(pair.gap.nominal == doctest::Approx(0.2 + 0.011817 - 0.2).epsilon(1e-9));
    REQUIRE(pair.in_states.size() == 2);
    CHECK(pair.in_states[0].state == kAsMeasured);
    CHECK(pair.in_states[0].value.nominal == doctest::Approx(0.2));
}

TEST_CASE("a state at 20 C is the state as measured") {
    job::Job job = coil_under_cup();
    job.states.insert(job.states.begin(), {.name = "fit", .at = {}, .all_c = 20.0, .part_c = {}});
    CHECK(states_of(job).size() == 2);
    CHECK(states_of(job).front().name == "fit");
}

TEST_CASE("what stands on how a part grows is not judged where nothing says it") {
    job::Job job = coil_under_cup();
    CHECK(states_checked(job).not_judged.empty());
    job.materials[0].expansion_per_k.reset();
    const CheckAnswer unknown = states_checked(job);
    CHECK(growth_lacking(unknown) ==
          GrowthNotKnown{.state = "run", .no_material = {}, .unknown = {{"coil", "resin"}}});
    CHECK(unknown.clearances.at(0).verdict == Verdict::not_judged);
    CHECK(unknown.clearances.at(0).in_states.at(0).verdict == Verdict::holds);
    CHECK(unknown.verdict == Verdict::not_judged);
    job.parts[1].material.clear();
    // The cup's length is in no gap.
    CHECK(growth_lacking(states_checked(job)) ==
          GrowthNotKnown{.state = "run", .no_material = {"coil"}, .unknown = {}});
    // Nothing is said of growth that is not asked for.
    for (job::State& state : job.states) {
        state.all_c = 20.0;
        state.part_c.clear();
    }
    CHECK(states_checked(job).not_judged.empty());
    job.states.clear();
    const CheckAnswer cold = states_checked(job);
    CHECK(std::any_of(cold.not_assessed.begin(), cold.not_assessed.end(), [](const auto& each) {
        const auto* const left_out = std::get_if<LeftOut>(&each);
        return left_out != nullptr && *left_out == LeftOut::heat;
    }));
    CHECK(states_checked(job).clearances.at(0).state.empty());
}

TEST_CASE("a part with a second seat follows the first when warm, all of it") {
    job::Job job = coil_under_cup();
    job.parts[2].seats.push_back(on_face(1, {0, 1}));
    job.parts[2].seats.back().kind = job::SeatKind::face_at_offset;
    job.parts[2].seats.back().offset = given(5.0, 0.1);
    const Model cold = std::get<Model>(Model::of(job));
    const std::vector<Model> models = in_states(cold);
    const Form thick = models.back().gap({.face = {2, 0}}, {.face = {2, 1}});
    CHECK(value(thick, cold.columns().nominal) == doctest::Approx(5.0));  // no material: no growth
    const Form stand = models.back().gap({.face = {0, 1}}, {.face = {2, 1}});
    CHECK(value(stand, cold.columns().nominal) == doctest::Approx(5.0));
}
