// SPDX-License-Identifier: MIT
#pragma once

#include <algorithm>
#include <iterator>
#include <map>
#include <trialfit/stack/answers.hpp>
#include <vector>

namespace trialfit::stack {

/// The rings that a part coming from outboard can meet, by diameter: intervals of diameter, each
/// with the rings seen there. A ring laid over others hides those that it clears for good.
class Skyline {
public:
    /// The rings seen anywhere over `diameters`, each once, in the order in which they were laid.
    [[nodiscard]] std::vector<int> over(const Range& diameters) const {
        std::vector<int> seen;
        auto it = intervals_.upper_bound(diameters.lo);
        if (it != intervals_.begin()) --it;
        for (; it != intervals_.end() && it->first < diameters.hi; ++it) {
            if (it->second.hi > diameters.lo) {
                seen.insert(seen.end(), it->second.rings.begin(), it->second.rings.end());
            }
        }
        std::ranges::sort(seen);
        seen.erase(std::unique(seen.begin(), seen.end()), seen.end());
        return seen;
    }

    /// Lays `ring` over `diameters`; rings there for which `hidden(ring_below)` holds are seen no
    /// more.
    template <typename Hidden>
    void lay(const Range& diameters, int ring, Hidden hidden) {
        split_at(diameters.lo);
        split_at(diameters.hi);
        std::map<int, bool> known;
        const auto gone = [&](int under) {
            const auto [it, is_new] = known.try_emplace(under, false);
            if (is_new) it->second = hidden(under);
            return it->second;
        };
        double reached = diameters.lo;
        for (auto it = intervals_.lower_bound(diameters.lo);
             it != intervals_.end() && it->first < diameters.hi; ++it) {
            if (it->first > reached) {
                intervals_.emplace(reached, Interval{.hi = it->first, .rings = {ring}});
            }
            std::vector<int>& rings = it->second.rings;
            rings.erase(std::remove_if(rings.begin(), rings.end(), gone), rings.end());
            rings.push_back(ring);
            reached = it->second.hi;
        }
        if (reached < diameters.hi) {
            intervals_.emplace(reached, Interval{.hi = diameters.hi, .rings = {ring}});
        }
    }

private:
    struct Interval {
        double hi = 0.0;
        std::vector<int> rings;
    };

    void split_at(double diameter) {
        auto it = intervals_.upper_bound(diameter);
        if (it == intervals_.begin()) return;
        --it;
        if (it->first == diameter || it->second.hi <= diameter) return;
        Interval outer = it->second;
        it->second.hi = diameter;
        intervals_.emplace(diameter, std::move(outer));
    }

    std::map<double, Interval> intervals_;
};

}  // namespace trialfit::stack
