// SPDX-License-Identifier: MIT
#include <doctest/doctest.h>

#include <fstream>
#include <sstream>
#include <string>
#include <trialfit/reading/read.hpp>

using namespace trialfit;

TEST_CASE("the demo job is read whole") {
    std::ifstream file(TRIALFIT_SOURCE_DIR "/examples/pump-engine.yaml", std::ios::binary);
    std::stringstream text;
    text << file.rdbuf();
    const auto outcome = reading::read_job(text.str(), "pump-engine.yaml");
    for (const auto& c : outcome.complaints)
        MESSAGE(c.at.line << ":" << c.at.column << ": " << c.fault << "; " << c.mend);
    REQUIRE(outcome.job);
    CHECK(outcome.complaints.empty());
}
