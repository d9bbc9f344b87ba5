// SPDX-License-Identifier: MIT
// What odds leave out of very large jobs, and that they say so.
#include <doctest/doctest.h>

#include <algorithm>
#include <string>
#include <support/jobs.hpp>
#include <trialfit/odds/odds.hpp>
#include <variant>

#include "support/messages.hpp"

namespace job = trialfit::job;
using namespace trialfit::odds;
using namespace trialfit::testing;

namespace {

// A pile of washers, each asked to be at least as thick as it is meant to be: an even chance.
job::Job asked_of_each(int washers) {
    job::Job job = pile(washers);
    for (int i = 1; i <= washers; ++i) {
        job::Check check;
        check.name = "washer " + std::to_string(i);
        check.of = job::GapOf{.inboard = {i, 0}, .outboard = {i, 1}};
        check.at_least = job::Limit{.value = 1.0, .written = "1"};
        job.checks.push_back(check);
    }
    return job;
}

OddsAnswer answer_of(int washers) {
    return std::get<OddsAnswer>(odds(asked_of_each(washers), {}));
}

std::size_t described(const OddsAnswer& answer) {
    const auto has_quantiles = [](const CheckOdds& each) { return !each.quantiles.empty(); };
    std::size_t all = 0;
    for (const auto* list : {&answer.checks, &answer.clearances, &answer.radial})
        all += static_cast<std::size_t>(std::count_if(list->begin(), list->end(), has_quantiles));
    return all;
}

const DescribedFirst* left_out(const OddsAnswer& answer) {
    return trialfit::testing::message<DescribedFirst>(answer.notes);
}

}  // namespace

TEST_CASE("of more than thirty findings the first thirty are described, and every one has odds") {
    const OddsAnswer few = answer_of(3);
    CHECK(described(few) >= 3);
    CHECK(left_out(few) == nullptr);
    const OddsAnswer many = answer_of(40);
    CHECK(described(many) == 30);
    REQUIRE(left_out(many) != nullptr);
    CHECK(left_out(many)->findings == 30);
    REQUIRE(many.checks.size() == 40);
    for (const CheckOdds& each : many.checks)
        CHECK(each.holds.value == doctest::Approx(0.5).epsilon(1e-12));
}

TEST_CASE("of more than a thousand demands that may fail the rest's chances are added up") {
    // Each fails with a half, so that what is left out alone is more than certain to fail.
    const OddsAnswer many = answer_of(1010);
    CHECK(many.checks.size() == 1010);
    CHECK(many.all.lower == 0.0);
    CHECK(many.all.value <= 1e-9);
}
