// SPDX-License-Identifier: MIT
#pragma once

#include <algorithm>
#include <cstddef>
#include <map>
#include <utility>
#include <vector>

namespace trialfit::stack {

/// The pairs to be shown, of clearances or of radial gaps: the tightest of each two parts, told by
/// `parts_of`, and what has a worse verdict than it; `all`: every pair. The worst verdict comes
/// first, then the least gap.
template <typename Pair, typename PartsOf>
[[nodiscard]] std::vector<Pair> listed_pairs(std::vector<Pair> pairs, bool all,
                                             const PartsOf& parts_of) {
    std::map<std::pair<int, int>, std::size_t> tightest;
    for (std::size_t i = 0; i < pairs.size(); ++i) {
        pairs[i].tightest = false;
        const auto [it, is_new] = tightest.try_emplace(parts_of(pairs[i]), i);
        if (!is_new && pairs[i].gap.nominal < pairs[it->second].gap.nominal) it->second = i;
    }
    for (const auto& [parts, i] : tightest)
        pairs[i].tightest = true;
    std::vector<Pair> kept;
    for (const Pair& pair : pairs)
        if (all || pair.tightest || pair.verdict > pairs[tightest.at(parts_of(pair))].verdict)
            kept.push_back(pair);
    std::ranges::stable_sort(kept, [](const Pair& a, const Pair& b) {
        return std::pair{b.verdict, a.gap.nominal} < std::pair{a.verdict, b.gap.nominal};
    });
    return kept;
}

}  // namespace trialfit::stack
