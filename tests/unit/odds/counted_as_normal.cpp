// SPDX-License-Identifier: MIT
// Odds of sizes that are bound together stand on a normal law, and say so where it matters.
#include <doctest/doctest.h>

#include <string>
#include <trialfit/odds/odds.hpp>
#include <trialfit/reading/read.hpp>
#include <variant>

#include "support/messages.hpp"

using namespace trialfit;

namespace {

// A plate whose thickness is given twice, spread as `shape`, and a height of at least `least`.
odds::OddsAnswer odds_of(const std::string& shape, const std::string& least) {
    const std::string text = R"(trialfit: 1
parts:
  - part: plate
    faces:
      back: zero
      front:
        - {size: 10, plus: 0.1, minus: 0.1, shape: )" +
                             shape +
                             R"(, from: back}
        - {size: 10.02, plus: 0.1, minus: 0.1, shape: )" +
                             shape + R"(, from: back}
checks:
  - {check: height, gap: [plate.back, plate.front], at_least: )" +
                             least + "}\n";
    const reading::Outcome read = reading::read_job(text, "plate.yaml");
    REQUIRE(read.job.has_value());
    return std::get<odds::OddsAnswer>(odds::odds(*read.job, {}));
}

const odds::CountedAsNormal* told(const odds::OddsAnswer& answer) {
    return testing::message<odds::CountedAsNormal>(answer.notes);
}

}  // namespace

TEST_CASE(
    "bound sizes that are spread otherwise are told to count as normal, where odds are open") {
    const odds::OddsAnswer uniform = odds_of("uniform", "10");
    REQUIRE(told(uniform) != nullptr);
    CHECK(told(uniform)->sizes == 2);
    CHECK(told(odds_of("normal", "10")) == nullptr);
    CHECK(told(odds_of("uniform", "9")) == nullptr);   // certain to hold
    CHECK(told(odds_of("uniform", "11")) == nullptr);  // certain to fail
}
