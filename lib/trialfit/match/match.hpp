// SPDX-License-Identifier: MIT
#pragma once

#include <atomic>
#include <cstddef>
#include <functional>
#include <trialfit/match/answers.hpp>
#include <trialfit/reading/join/joiner.hpp>
#include <vector>

namespace trialfit::match {

/// How a match is watched and stopped; every member may be left out.
struct Options {
    /// 0: as many as the machine has. The answer is the same for any number.
    unsigned threads = 0;
    const std::atomic<bool>* stop = nullptr;
    /// Called after each candidate with how many are judged, from one thread at a time.
    std::function<void(std::size_t)> progress{};
};

/// More candidates than this are refused: an answer would not be read.
inline constexpr std::size_t kMostCandidates = 10'000;

/// One file of each group, every combination: the last group runs fastest.
[[nodiscard]] std::vector<std::vector<std::size_t>> combinations(
    const std::vector<std::vector<std::size_t>>& groups);

/// Joins each of `combinations` to the joiner's first file, judges it as it comes by the worst
/// case, and where that does not hold searches for its cheapest plan. What one of them cannot be
/// judged for is told with it and stops no other. The first file may not be unreadable.
[[nodiscard]] MatchAnswer match(const reading::Joiner& joiner,
                                const std::vector<std::vector<std::size_t>>& combinations,
                                const Options& options = {});

}  // namespace trialfit::match
