// SPDX-License-Identifier: MIT
// `check` from file to text: the demo in its three steps, and made-up stacks of many parts, whose
// time must grow in proportion to the parts. Stacks are made in memory: the reader refuses files
// over 4 MiB.
#include <benchmark/benchmark.h>

#include <fstream>
#include <iterator>
#include <stdexcept>
#include <string>
#include <trialfit/paper/check/text.hpp>
#include <trialfit/paper/printed.hpp>
#include <trialfit/reading/read.hpp>
#include <trialfit/stack/check/check.hpp>
#include <variant>

namespace {

using namespace trialfit;

std::string demo_text() {
    std::ifstream file(TRIALFIT_SOURCE_DIR "/examples/pump-engine.yaml", std::ios::binary);
    std::string text{std::istreambuf_iterator<char>(file), std::istreambuf_iterator<char>()};
    if (text.empty()) throw std::runtime_error("no demo");
    return text;
}

job::Job demo() {
    reading::Outcome outcome = reading::read_job(demo_text(), "pump-engine.yaml");
    if (!outcome.job) throw std::runtime_error("the demo is refused");
    return *std::move(outcome.job);
}

stack::CheckAnswer answer_to(const job::Job& job) {
    auto found = stack::check(job, {});
    if (!std::holds_alternative<stack::CheckAnswer>(found)) throw std::runtime_error("no answer");
    return std::get<stack::CheckAnswer>(std::move(found));
}

job::Given given(const quantity::Size& size) {
    job::Given result;
    result.size = size;
    return result;
}

/// A part of length 1 with a flange and a narrower neck, on top of the part before it.
job::Part disc(int index) {
    job::Part part;
    part.name = "part" + std::to_string(index);
    part.turns = index % 2 == 1;
    job::Face under;
    under.name = "under";
    under.zero = true;
    job::Face step;
    step.name = "step";
    step.dimensions = {{given(quantity::toleranced(0.4, -0.01, 0.01)), 0}};
    job::Face top;
    top.name = "top";
    top.dimensions = {{given(quantity::toleranced(0.6, -0.01, 0.01)), 1}};
    part.faces = {under, step, top};

    const auto ring = [](const char* name, int from, int to, double od) {
        job::Ring made;
        made.name = name;
        made.inboard = {from, 0.0};
        made.outboard = {to, 0.0};
        made.bore = given(quantity::exact(10.0));
        made.outside = given(quantity::exact(od));
        return made;
    };
    part.rings = {ring("flange", 0, 1, 40.0 + index % 7), ring("neck", 1, 2, 20.0 + index % 3)};
    if (index > 0) {
        job::Seat seat;
        seat.own = 0;
        seat.against = {index - 1, 2};
        part.seats = {seat};
    }
    return part;
}

job::Job stack_of(int parts) {
    job::Job job;
    job.file = "made-up";
    job.parts.reserve(static_cast<std::size_t>(parts));
    for (int i = 0; i < parts; ++i)
        job.parts.push_back(disc(i));
    job::Check check;
    check.name = "height";
    check.of = job::GapOf{{0, 0}, {parts - 1, 2}};
    check.at_least = job::Limit{.value = 1.0, .written = "1"};
    job.checks = {check};
    return job;
}

void read_demo(benchmark::State& state) {
    const std::string text = demo_text();
    for (auto _ : state)
        benchmark::DoNotOptimize(reading::read_job(text, "pump-engine.yaml"));
}
BENCHMARK(read_demo)->Unit(benchmark::kMicrosecond);

void solve_demo(benchmark::State& state) {
    const job::Job job = demo();
    for (auto _ : state)
        benchmark::DoNotOptimize(answer_to(job));
}
BENCHMARK(solve_demo)->Unit(benchmark::kMicrosecond);

void print_demo(benchmark::State& state) {
    const stack::CheckAnswer answer = answer_to(demo());
    for (auto _ : state)
        benchmark::DoNotOptimize(paper::check_text(answer, {}));
}
BENCHMARK(print_demo)->Unit(benchmark::kMicrosecond);

void solve_stack(benchmark::State& state) {
    const job::Job job = stack_of(static_cast<int>(state.range(0)));
    for (auto _ : state)
        benchmark::DoNotOptimize(answer_to(job));
    state.SetComplexityN(state.range(0));
    state.counters["s_per_part"] = benchmark::Counter(
        static_cast<double>(state.range(0)),
        benchmark::Counter::kIsIterationInvariantRate | benchmark::Counter::kInvert);
}
BENCHMARK(solve_stack)
    ->RangeMultiplier(10)
    ->Range(10, 100000)
    ->Unit(benchmark::kMillisecond)
    ->Complexity();

}  // namespace

BENCHMARK_MAIN();
