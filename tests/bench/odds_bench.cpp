// SPDX-License-Identifier: MIT
// W1: 24 inputs, 8 linear outputs with limits, sampled; W2: the probability that a sum of 12 mixed
// inputs lies below a limit, from scratch. `odds_peers.py` runs the same with general libraries.
#include <benchmark/benchmark.h>

#include <trialfit/numerics/random/variates.hpp>

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
    const numerics::Sampler sampler(spec.population);
    const numerics::Sampling sampling{.samples = kSamples,
                                      .threads = static_cast<unsigned>(state.range(0))};
    for (auto _ : state)
        benchmark::DoNotOptimize(numerics::sample(sampler, spec.checks, sampling));
    per_sample(state, kSamples);
}
BENCHMARK(w1)->Arg(1)->Arg(2)->UseRealTime()->Unit(benchmark::kMillisecond);

// The same through a general evaluator, which sees every size in double precision.
void w1_evaluator(benchmark::State& state) {
    const bench::Sampled spec = bench::read_sampled("w1.txt");
    const numerics::Sampler sampler(spec.population);
    const numerics::Sampling sampling{.samples = kSamples,
                                      .threads = static_cast<unsigned>(state.range(0))};
    const auto evaluator = [&](std::span<const double> values, std::span<double> outputs) {
        std::fill(outputs.begin(), outputs.end(), 1.0);
        for (const numerics::LinearCheck& check : spec.checks) {
            std::array<double, numerics::kBlock> y{};
            for (std::size_t i = 0; i < check.coefficients.size(); ++i) {
                if (check.coefficients[i] == 0.0) continue;
                for (std::size_t s = 0; s < numerics::kBlock; ++s)
                    y[s] += check.coefficients[i] * values[i * numerics::kBlock + s];
            }
            for (std::size_t s = 0; s < numerics::kBlock; ++s)
                if (y[s] < check.lower || y[s] > check.upper) outputs[s] = 0.0;
        }
    };
    for (auto _ : state)
        benchmark::DoNotOptimize(numerics::sample(sampler, 1, evaluator, sampling));
    per_sample(state, kSamples);
}
BENCHMARK(w1_evaluator)->Arg(1)->Arg(2)->UseRealTime()->Unit(benchmark::kMillisecond);

// What the random words alone cost, at each instruction set this machine has.
void w1_words_alone(benchmark::State& state) {
    const numerics::Loops& set = numerics::loops()[static_cast<std::size_t>(state.range(0))];
    std::vector<std::uint32_t> words(24 * numerics::kBlock);
    std::uint64_t first = 0;
    for (auto _ : state) {
        set.words(first, 6, {1, 2}, words.data());
        benchmark::DoNotOptimize(words.data());
        first += numerics::kBlock;
    }
    state.SetLabel(std::string(set.name));
    per_sample(state, numerics::kBlock);
}
BENCHMARK(w1_words_alone)->DenseRange(0, static_cast<int>(numerics::loops().size()) - 1);

// The numbers themselves: words made into deviates of their sizes.
void w1_numbers_alone(benchmark::State& state) {
    const numerics::Loops& set = numerics::loops()[static_cast<std::size_t>(state.range(0))];
    const numerics::Sampler sampler(bench::read_sampled("w1.txt").population);
    std::vector<float> drawn(sampler.slots().size() * numerics::kBlock);
    std::uint64_t first = 0;
    for (auto _ : state) {
        set.draw(first, sampler.slots(), {1, 2}, drawn.data());
        benchmark::DoNotOptimize(drawn.data());
        first += numerics::kBlock;
    }
    state.SetLabel(std::string(set.name));
    per_sample(state, numerics::kBlock);
}
BENCHMARK(w1_numbers_alone)->DenseRange(0, static_cast<int>(numerics::loops().size()) - 1);

void w1_one_block(benchmark::State& state) {
    const numerics::Loops& set = numerics::loops()[static_cast<std::size_t>(state.range(0))];
    const bench::Sampled spec = bench::read_sampled("w1.txt");
    const numerics::Sampler sampler(spec.population);
    std::vector<numerics::LinearRow> rows;
    for (const numerics::LinearCheck& check : spec.checks)
        rows.push_back(sampler.row(check.coefficients, 0.0, check.lower, check.upper).row);
    std::vector<float> drawn(sampler.slots().size() * numerics::kBlock);
    numerics::LinearTally tally{.rows = std::vector<numerics::LinearTally::Row>(rows.size())};
    std::uint64_t first = 0;
    for (auto _ : state) {
        set.draw(first, sampler.slots(), {1, 2}, drawn.data());
        set.tally(rows, drawn.data(), tally);
        benchmark::DoNotOptimize(tally.samples);
        first += numerics::kBlock;
    }
    state.SetLabel(std::string(set.name));
    per_sample(state, numerics::kBlock);
}
BENCHMARK(w1_one_block)->DenseRange(0, static_cast<int>(numerics::loops().size()) - 1);

// The argument is z: the limit lies z sd from the mean.
void w2(benchmark::State& state, const char* name) {
    const auto contributors = bench::read_sum(name);
    double probability = 0.0;
    for (auto _ : state) {
        const numerics::SumDistribution sum(contributors);
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
