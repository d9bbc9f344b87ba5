// SPDX-License-Identifier: MIT
// W1: 24 inputs, 8 linear outputs with limits, sampled; W2: the probability that a sum of 12 mixed
// inputs lies below a limit, from scratch. `odds_peers.py` runs the same with general libraries.
#include <benchmark/benchmark.h>

#include <trialfit/odds/random/deviates.hpp>

#include "odds_spec.hpp"

namespace {

using namespace trialfit;

constexpr std::uint64_t kSamples = 4'000'000;

void per_sample(benchmark::State& state, std::uint64_t samples) {
    state.counters["ns_per_sample"] = benchmark::Counter(
        static_cast<double>(samples) * 1e-9,
        benchmark::Counter::kIsIterationInvariantRate | benchmark::Counter::kInvert);
}

void w1(benchmark::State& state) {
    const bench::Sampled spec = bench::read_sampled("w1.txt");
    const odds::Sampler sampler(spec.population);
    const odds::Sampling sampling{.samples = kSamples,
                                  .threads = static_cast<unsigned>(state.range(0))};
    for (auto _ : state)
        benchmark::DoNotOptimize(odds::sample(sampler, spec.checks, sampling));
    per_sample(state, kSamples);
}
BENCHMARK(w1)->Arg(1)->Arg(2)->UseRealTime()->Unit(benchmark::kMillisecond);

// The same through a general evaluator, which sees every size in double precision.
void w1_evaluator(benchmark::State& state) {
    const bench::Sampled spec = bench::read_sampled("w1.txt");
    const odds::Sampler sampler(spec.population);
    const odds::Sampling sampling{.samples = kSamples,
                                  .threads = static_cast<unsigned>(state.range(0))};
    const auto evaluator = [&](std::span<const double> values, std::span<double> outputs) {
        std::fill(outputs.begin(), outputs.end(), 1.0);
        for (const odds::LinearCheck& check : spec.checks) {
            std::array<double, odds::kBlock> y{};
            for (std::size_t i = 0; i < check.coefficients.size(); ++i) {
                if (check.coefficients[i] == 0.0) continue;
                for (std::size_t s = 0; s < odds::kBlock; ++s)
                    y[s] += check.coefficients[i] * values[i * odds::kBlock + s];
            }
            for (std::size_t s = 0; s < odds::kBlock; ++s)
                if (y[s] < check.lower || y[s] > check.upper) outputs[s] = 0.0;
        }
    };
    for (auto _ : state)
        benchmark::DoNotOptimize(odds::sample(sampler, 1, evaluator, sampling));
    per_sample(state, kSamples);
}
BENCHMARK(w1_evaluator)->Arg(1)->Arg(2)->UseRealTime()->Unit(benchmark::kMillisecond);

// What the random words alone cost, at each instruction set this machine has.
void w1_words_alone(benchmark::State& state) {
    const odds::Loops& set = odds::loops()[static_cast<std::size_t>(state.range(0))];
    std::vector<std::uint32_t> words(24 * odds::kBlock);
    std::uint64_t first = 0;
    for (auto _ : state) {
        set.words(first, 6, {1, 2}, words.data());
        benchmark::DoNotOptimize(words.data());
        first += odds::kBlock;
    }
    state.SetLabel(std::string(set.name));
    per_sample(state, odds::kBlock);
}
BENCHMARK(w1_words_alone)->DenseRange(0, static_cast<int>(odds::loops().size()) - 1);

// The numbers themselves: words made into deviates of their sizes.
void w1_numbers_alone(benchmark::State& state) {
    const odds::Loops& set = odds::loops()[static_cast<std::size_t>(state.range(0))];
    const odds::Sampler sampler(bench::read_sampled("w1.txt").population);
    std::vector<float> drawn(sampler.slots().size() * odds::kBlock);
    std::uint64_t first = 0;
    for (auto _ : state) {
        set.draw(first, sampler.slots(), {1, 2}, drawn.data());
        benchmark::DoNotOptimize(drawn.data());
        first += odds::kBlock;
    }
    state.SetLabel(std::string(set.name));
    per_sample(state, odds::kBlock);
}
BENCHMARK(w1_numbers_alone)->DenseRange(0, static_cast<int>(odds::loops().size()) - 1);

void w1_one_block(benchmark::State& state) {
    const odds::Loops& set = odds::loops()[static_cast<std::size_t>(state.range(0))];
    const bench::Sampled spec = bench::read_sampled("w1.txt");
    const odds::Sampler sampler(spec.population);
    std::vector<odds::LinearRow> rows;
    for (const odds::LinearCheck& check : spec.checks)
        rows.push_back(sampler.row(check.coefficients, 0.0, check.lower, check.upper).row);
    std::vector<float> drawn(sampler.slots().size() * odds::kBlock);
    odds::LinearTally tally{.rows = std::vector<odds::LinearTally::Row>(rows.size())};
    std::uint64_t first = 0;
    for (auto _ : state) {
        set.draw(first, sampler.slots(), {1, 2}, drawn.data());
        set.tally(rows, drawn.data(), tally);
        benchmark::DoNotOptimize(tally.samples);
        first += odds::kBlock;
    }
    state.SetLabel(std::string(set.name));
    per_sample(state, odds::kBlock);
}
BENCHMARK(w1_one_block)->DenseRange(0, static_cast<int>(odds::loops().size()) - 1);

// The argument is z: the limit lies z sd from the mean.
void w2(benchmark::State& state, const char* name) {
    const auto contributors = bench::read_sum(name);
    double probability = 0.0;
    for (auto _ : state) {
        const odds::SumDistribution sum(contributors);
        probability = sum.cdf(sum.mean() + static_cast<double>(state.range(0)) * sum.sd());
        benchmark::DoNotOptimize(probability);
    }
    state.counters["P"] = probability;
}
BENCHMARK_CAPTURE(w2, a, "w2a.txt")
    ->Arg(-6)
    ->Arg(-3)
    ->Arg(0)
    ->Arg(2)
    ->Unit(benchmark::kMicrosecond);
BENCHMARK_CAPTURE(w2, b, "w2b.txt")
    ->Arg(-6)
    ->Arg(-3)
    ->Arg(0)
    ->Arg(2)
    ->Unit(benchmark::kMicrosecond);

}  // namespace

BENCHMARK_MAIN();
