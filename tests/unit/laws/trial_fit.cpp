// SPDX-License-Identifier: MIT
// The library's first call against the program: record and readings are in force unless set aside.
#include <doctest/doctest.h>

#include <support/examples.hpp>
#include <trialfit/sheet/trial_fit.hpp>

using namespace trialfit;

namespace {

stack::Verdict verdict(const char* example, const TrialFitOptions& options) {
    const job::Job job =
        testing::job_in(std::filesystem::path(TRIALFIT_SOURCE_DIR "/examples") / example);
    const auto outcome = trial_fit(job, options);
    REQUIRE(outcome.index() == 0);
    return std::get<0>(outcome).verdict;
}

}  // namespace

TEST_CASE("one call applies the record, and sets it aside only where it is told to") {
    CHECK(verdict("pump-engine-turned.yaml", {}) == stack::Verdict::holds);
    CHECK(verdict("pump-engine-turned.yaml", {.entries = 0}) == stack::Verdict::fails);
}

TEST_CASE("one call lets the readings bind, as the program does") {
    const job::Job job = testing::job_in(TRIALFIT_SOURCE_DIR "/examples/misread-depth.yaml");
    // Its readings are a millimetre off, which no sizes within their limits give.
    CHECK(trial_fit(job).index() == 1);
    CHECK(trial_fit(job, {.as_written = true}).index() == 0);
}
