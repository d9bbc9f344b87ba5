// SPDX-License-Identifier: MIT
#include <doctest/doctest.h>

#include <string>
#include <support/jobs.hpp>
#include <trialfit/stack/check/check.hpp>
#include <trialfit/stack/metal.hpp>
#include <trialfit/trade/fastening/property_class.hpp>
#include <utility>
#include <variant>

using namespace trialfit;
using namespace trialfit::testing;

namespace {

job::Thread thread(const std::string& form) {
    job::Thread thread;
    thread.name = "thread";
    thread.from = 0;
    thread.to = 1;
    thread.form = *trade::thread(form);
    thread.lead_in = thread.run_out = given(0.0);
    return thread;
}

// A shaft and a nut screwed 8 on to it; the check asks for engagement by strength.
job::Job screwed() {
    PartOf shaft("shaft", "from");
    shaft.face("to", given(20.0), "from");
    PartOf nut("nut", "seat");
    nut.face("top", given(8.0), "seat").seat(on_face(0, {.part = 0, .face = 0}));
    job::Job job;
    job.parts = {shaft, nut};
    job.parts[0].threads = {thread("M10x1.25-6g")};
    job.parts[1].threads = {thread("M10x1.25-6H")};
    job::Check check;
    check.name = "engagement";
    check.of = job::EngagementOf{{1, 0}, {0, 0}};
    check.at_least = job::Limit{.in = job::LimitIn::strength, .written = "strength"};
    job.checks = {check};
    return job;
}

stack::CheckAnswer checked(const job::Job& job) {
    return std::get<stack::CheckAnswer>(stack::check(job, {}));
}

}  // namespace

TEST_CASE("engagement by strength is the length that develops the bolt") {
    auto job = screwed();
    job.parts[0].threads[0].property_class = "8.8";
    job.parts[1].threads[0].property_class = "10";
    const auto result = checked(job).checks.at(0);
    REQUIRE(result.at_least);
    CHECK(result.verdict == stack::Verdict::holds);
    // A 10 nut is stronger than the bolt: equal-strength length 2 As / (area per mm), by hand
    // 2 x 61.2 / 16.6 = 7.4.
    CHECK(*result.at_least == doctest::Approx(7.4).epsilon(0.05));
    job.parts[1].threads[0].property_class.clear();
    job.parts[1].material = "6061-T6";
    CHECK(checked(job).checks.at(0).verdict == stack::Verdict::fails);
    CHECK(*checked(job).checks.at(0).at_least > 1.5 * *result.at_least);
}

TEST_CASE("engagement by strength is in the file's unit") {
    auto job = screwed();
    job.parts[0].threads[0].property_class = "8.8";
    job.parts[1].threads[0].property_class = "8";
    const double mm = *checked(job).checks.at(0).at_least;
    job.units = quantity::Unit::inch;
    CHECK(*checked(job).checks.at(0).at_least == doctest::Approx(mm / 25.4));
}

TEST_CASE("where nothing says how strong the threads are, engagement by strength is not judged") {
    const auto answer = checked(screwed());
    CHECK(answer.checks.at(0).verdict == stack::Verdict::not_judged);
    CHECK(answer.verdict != stack::Verdict::holds);
    CHECK_FALSE(answer.checks.at(0).at_least.has_value());
    REQUIRE_FALSE(answer.not_judged.empty());
    CHECK(answer.not_judged.front() ==
          stack::NotJudged{.check = "engagement",
                           .why = stack::ThreadStrengthNotKnown{.thread = "shaft.thread"}});
}

TEST_CASE("a job's own figures overrule the table, and never mix two metals' strengths") {
    auto job = screwed();
    job.parts[0].material = "1020";
    CHECK(stack::metal(job, 0).yield_mpa->value == 210.0);
    CHECK(stack::metal(job, 0).tensile_mpa->value == 380.0);
    job.parts[0].material = "steel";
    CHECK_FALSE(stack::metal(job, 0).yield_mpa.has_value());
    job.materials = {{.name = "steel", .at = {.line = 7}, .strength_mpa = 500.0}};
    const auto own = stack::metal(job, 0);
    CHECK(own.yield_mpa->value == 500.0);
    CHECK(own.yield_mpa->source == "line 7");
    CHECK_FALSE(own.tensile_mpa.has_value());
    CHECK(own.density_kg_m3->value == 7850.0);
    CHECK(stack::metal(job, 1).name.empty());
}

TEST_CASE("a nut of a class strips at its proof load on a regular nut's height") {
    auto job = screwed();
    job.parts[1].threads[0].property_class = "8";
    const auto metal = stack::thread_metal(job, {1, 0}, true);
    REQUIRE(metal.tensile_mpa);
    const auto areas = *trade::strip_areas(job.parts[1].threads[0].form);
    // Least height of an M10 nut, ISO 4032: 8.04.
    CHECK(metal.tensile_mpa->value / 2.0 * areas.nut_mm2_per_mm * 8.04 ==
          doctest::Approx(*trade::nut_proof_load_N(job.parts[1].threads[0].form, "8")));
}

TEST_CASE("the class of a thread says which is the nut; else the later part is") {
    auto job = screwed();
    CHECK(stack::thread_pair(job, {{1, 0}, {0, 0}}).nut.part == 1);
    CHECK(stack::thread_pair(job, {{0, 0}, {1, 0}}).nut.part == 1);
    std::swap(job.parts[0].threads[0].form, job.parts[1].threads[0].form);  // a bolt in the shaft
    CHECK(stack::thread_pair(job, {{1, 0}, {0, 0}}).nut.part == 0);
    job.parts[0].threads[0].form = job.parts[1].threads[0].form = *trade::thread("M10x1.25");
    CHECK(stack::thread_pair(job, {{0, 0}, {1, 0}}).nut.part == 1);
}
