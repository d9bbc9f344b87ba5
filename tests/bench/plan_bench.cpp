// SPDX-License-Identifier: MIT
// W3: cheapest cuts and shims to the proof. With --plain FILES, prints one line a file (as the peer
// does: cost and milliseconds) for plan_peers.sh.
#include <benchmark/benchmark.h>

#include <trialfit/numerics/planner/solve.hpp>

#include <algorithm>
#include <chrono>
#include <cstring>
#include <exception>
#include <iomanip>
#include <iostream>
#include <string>
#include <vector>

#include "w3.hpp"

namespace {

using namespace trialfit;

void to_proof(benchmark::State& state, const std::string& name, numerics::MarginRule judge,
              std::size_t top) {
    numerics::Problem problem =
        testing::read_w3(TRIALFIT_SOURCE_DIR "/tests/bench/spec/" + name + ".txt");
    problem.judge = judge;
    numerics::SolveResult answer;
    for (auto each : state) {
        static_cast<void>(each);
        answer = numerics::solve(problem, top);
        benchmark::DoNotOptimize(answer);
    }
    state.counters["cost"] = answer.plans.empty() ? -1.0 : answer.plans.front().cost;
    state.counters["proven"] = answer.proven ? 1.0 : 0.0;
    state.counters["nodes"] = static_cast<double>(answer.nodes);
}

int plain(int count, char** files) {
    for (int i = 0; i < count; ++i) {
        const std::string path = files[i];
        const numerics::Problem problem = testing::read_w3(path);
        std::vector<double> milliseconds;
        numerics::SolveResult answer;
        for (int run = 0; run < 5; ++run) {
            const auto start = std::chrono::steady_clock::now();
            answer = numerics::solve(problem, 1);
            const std::chrono::duration<double, std::milli> took =
                std::chrono::steady_clock::now() - start;
            milliseconds.push_back(took.count());
        }
        std::sort(milliseconds.begin(), milliseconds.end());
        std::cout << path.substr(path.find_last_of('/') + 1) << std::fixed << std::setprecision(6)
                  << " cost " << (answer.plans.empty() ? -1.0 : answer.plans.front().cost)
                  << " proven " << (answer.proven ? 1 : 0) << std::setprecision(3) << ' '
                  << milliseconds[milliseconds.size() / 2] << " ms\n";
    }
    return 0;
}

void add(const std::string& name) {
    using numerics::MarginRule;
    const auto bench = [&](const std::string& what, MarginRule judge, std::size_t top) {
        benchmark::RegisterBenchmark((name + what).c_str(), to_proof, name, judge, top)
            ->Unit(benchmark::kMillisecond);
    };
    bench("/cheapest", MarginRule::worst_case, 1);
    bench("/cheapest_by_rss", MarginRule::rss, 1);
    bench("/three_cheapest", MarginRule::worst_case, 3);
}

}  // namespace

int main(int argc, char** argv) try {
    if (argc > 1 && std::strcmp(argv[1], "--plain") == 0) return plain(argc - 2, argv + 2);
    for (int i = 0; i < 10; ++i)
        add("w3_8_4_0" + std::to_string(i));
    for (const std::string size : {"w3_12_6_0", "w3_16_8_0"})
        for (int i = 0; i < 5; ++i)
            add(size + std::to_string(i));
    benchmark::Initialize(&argc, argv);
    if (benchmark::ReportUnrecognizedArguments(argc, argv)) return 1;
    benchmark::RunSpecifiedBenchmarks();
    benchmark::Shutdown();
    return 0;
} catch (const std::exception& fault) {
    std::cerr << fault.what() << '\n';
    return 1;
}
