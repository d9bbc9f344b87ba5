// SPDX-License-Identifier: MIT
// A pile of washers with a reading over every 20th: 5 % redundancy, at three sizes.
#include <benchmark/benchmark.h>

#include <trialfit/survey/survey.hpp>
#include <variant>

#include "../support/jobs.hpp"

namespace {

trialfit::job::Job surveyed_pile(int washers) {
    namespace job = trialfit::job;
    job::Job pile = trialfit::testing::pile(washers);
    pile.gauges.push_back({.name = "caliper", .half_width = 0.01});
    const int span = washers < 20 ? washers : 20;
    for (int first = 1; first + span - 1 <= washers; first += span) {
        job::Reading reading{.name = "pack from " + std::to_string(first),
                             .from = {first, 0},
                             .to = {first + span - 1, 1},
                             .is = trialfit::testing::given(span, 0.01),
                             .pushed = job::Pushed::in};
        pile.readings.push_back(reading);
    }
    job::Check check{.name = "whole pile", .of = job::GapOf{{0, 0}, {washers, 1}}};
    check.at_least = job::Limit{.value = 0.999 * washers};
    pile.checks.push_back(check);
    return pile;
}

void survey_a_pile(benchmark::State& state) {
    const auto job = surveyed_pile(static_cast<int>(state.range(0)));
    for (auto _ : state) {
        auto answer = trialfit::survey::survey(job);
        if (!std::holds_alternative<trialfit::survey::SurveyAnswer>(answer))
            state.SkipWithError("refused");
        benchmark::DoNotOptimize(answer);
    }
    state.SetComplexityN(state.range(0));
}
BENCHMARK(survey_a_pile)
    ->Arg(10)
    ->Arg(1000)
    ->Arg(100000)
    ->Unit(benchmark::kMillisecond)
    ->Complexity(benchmark::oN);

}  // namespace

BENCHMARK_MAIN();
