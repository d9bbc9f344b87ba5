// SPDX-License-Identifier: MIT
#include <doctest/doctest.h>

#include <string>
#include <support/examples.hpp>
#include <trialfit/reading/read.hpp>
#include <trialfit/study/differences.hpp>
#include <trialfit/study/named_sizes.hpp>
#include <variant>

using namespace trialfit;

namespace {

job::Job pump_engine() {
    for (job::Job& job : testing::every_example())
        if (job.file == "pump-engine.yaml") return std::move(job);
    FAIL("no pump-engine.yaml among the examples");
    return {};
}

job::Job with(const job::Job& job, const char* what, const char* size) {
    return std::get<job::Job>(study::with_size(job, what, size));
}

}  // namespace

TEST_CASE("jobs that are alike differ in nothing") {
    const job::Job job = pump_engine();
    CHECK(study::differences({&job, &job}).empty());
    // Written otherwise, but the same size.
    const job::Job same = with(job, "plate.front", "9.97..10.03");
    CHECK(study::differences({&job, &same}).empty());
}

TEST_CASE("what differs is named once, as each job writes it") {
    const job::Job job = pump_engine();
    const job::Job thinner = with(job, "plate.front", "8.00 ±0.05");
    const job::Job shimmed = with(job, "stator.shims", "0.5 + 0.3");
    const auto found = study::differences({&job, &thinner, &shimmed});
    REQUIRE(found.size() == 2);
    CHECK(found[0].name == "plate.front");
    CHECK(found[0].written ==
          std::vector<std::string>{"10.00 by caliper", "8.00 ±0.05", "10.00 by caliper"});
    CHECK(found[1].name == "stator.shims");
    CHECK(found[1].written == std::vector<std::string>{"none", "none", "0.5 + 0.3"});
}

TEST_CASE("a size that one of the jobs has not differs, and units are told where they do") {
    const job::Job job = pump_engine();
    job::Job inches = job;
    inches.units = quantity::Unit::inch;
    inches.parts.pop_back();
    const auto found = study::differences({&job, &inches});
    REQUIRE(!found.empty());
    CHECK(found.front().written.front().ends_with(" mm"));
    CHECK(found.front().written.back().ends_with(" in"));
    CHECK(found.back().written.back().empty() == false);
    bool lacks = false;
    for (const study::Difference& each : found)
        lacks = lacks || (each.name.starts_with("cover.") && each.written.back().empty());
    CHECK(lacks);
}
