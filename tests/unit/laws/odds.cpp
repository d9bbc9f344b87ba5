// SPDX-License-Identifier: MIT
// Exact and sampled odds against each other, on every example.
#include <doctest/doctest.h>

#include <cmath>
#include <limits>
#include <support/examples.hpp>
#include <support/fewer.hpp>
#include <trialfit/odds/odds.hpp>
#include <trialfit/odds/sampling/rows.hpp>
#include <trialfit/stack/check/requirements.hpp>
#include <trialfit/stack/clearance/clearances.hpp>
#include <trialfit/survey/survey.hpp>

namespace job = trialfit::job;
namespace numerics = trialfit::numerics;
using namespace trialfit::odds;
using namespace trialfit::testing;
namespace stack = trialfit::stack;

namespace {

// The model with the readings in force where they agree, else with the sizes as written.
stack::Options with_readings(const job::Job& job) {
    stack::Options options;
    options.readings = std::get<0>(trialfit::survey::evidence(job));
    if (stack::model_for(job, options).index() != 0) options.readings.clear();
    return options;
}

OddsAnswer odds_of(const job::Job& job, unsigned threads) {
    Options options{.stack = with_readings(job)};
    options.sampling.samples = 50'000;
    options.sampling.threads = threads;
    return std::get<OddsAnswer>(trialfit::odds::odds(job, options));
}

}  // namespace

TEST_CASE("sampling agrees with the exact odds within four standard errors") {
    constexpr double kInfinity = std::numeric_limits<double>::infinity();
    int compared = 0;
    for (const job::Job& job : every_example()) {
        CAPTURE(job.file);
        const auto built = stack::model_for(job, with_readings(job));
        const auto& model = std::get<stack::Model>(built);
        for (const job::Check& check : job.checks) {
            for (const auto& difference : stack::question(model, check).differences) {
                const Spreads spreads(model, {difference.least});
                const numerics::SumDistribution exact = spreads.distribution(difference.least);
                if (exact.sd() <= 0.0) continue;
                // Limits where something is at stake: near one and near two sd, either side.
                std::vector<numerics::LinearCheck> rows;
                std::vector<double> fails;
                for (const double at : {-2.0, -1.0, 0.0, 1.0, 2.0}) {
                    const double limit = exact.mean() + at * exact.sd();
                    rows.push_back(spreads.row(difference.least, limit, kInfinity));
                    fails.push_back(exact.cdf(limit));
                }
                const numerics::LinearSampled sampled = sample(
                    numerics::Sampler(spreads.population()), rows, {.samples = 40'000, .seed = 7});
                const auto n = static_cast<double>(sampled.samples);
                for (std::size_t i = 0; i < rows.size(); ++i) {
                    const double error = std::sqrt(fails[i] * (1.0 - fails[i]) / n);
                    CHECK(std::abs(static_cast<double>(sampled.outside[i]) / n - fails[i]) <=
                          4.0 * error);
                    ++compared;
                }
            }
        }
    }
    CHECK(compared > 100);
}

TEST_CASE("one, two and seven threads give the same bits") {
    const std::vector<unsigned> several =
        kSanitized ? std::vector<unsigned>{7} : std::vector<unsigned>{2, 7};
    for (const job::Job& job : every_example()) {
        CAPTURE(job.file);
        const OddsAnswer one = odds_of(job, 1);
        for (const unsigned threads : several) {
            const OddsAnswer more = odds_of(job, threads);
            CHECK(more.all.value == one.all.value);
            CHECK(more.all.lower == one.all.lower);
            CHECK(more.nothing_touches == one.nothing_touches);
            REQUIRE(more.checks.size() == one.checks.size());
            for (std::size_t i = 0; i < one.checks.size(); ++i)
                CHECK(more.checks[i].holds.value == one.checks[i].holds.value);
            REQUIRE(more.radial.size() == one.radial.size());
            for (std::size_t i = 0; i < one.radial.size(); ++i)
                CHECK(more.radial[i].holds.value == one.radial[i].holds.value);
            REQUIRE(more.touches_first.size() == one.touches_first.size());
            for (std::size_t i = 0; i < one.touches_first.size(); ++i) {
                CHECK(more.touches_first[i].chance.value == one.touches_first[i].chance.value);
            }
        }
    }
}

TEST_CASE("all together is bounded by its parts, and something or nothing touches first") {
    for (const job::Job& job : every_example()) {
        CAPTURE(job.file);
        const OddsAnswer answer = odds_of(job, 1);
        // All together is never likelier than the least likely of them, nor than their sum forbids.
        double least = 1.0;
        double sum_of_fails = 0.0;
        for (const auto* list : {&answer.checks, &answer.clearances, &answer.radial}) {
            for (const CheckOdds& each : *list) {
                least = std::min(least, each.holds.upper);
                sum_of_fails += each.fails;
            }
        }
        CHECK(answer.all.lower <= least + 1e-12);
        if (answer.notes.empty()) CHECK(answer.all.upper >= 1.0 - sum_of_fails - 0.01);
        double touched = answer.nothing_touches;
        for (const TouchesFirst& pair : answer.touches_first)
            touched += pair.chance.value;
        CHECK(touched == doctest::Approx(1.0).epsilon(1e-9));
    }
}
