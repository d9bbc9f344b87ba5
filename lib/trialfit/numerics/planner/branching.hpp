// SPDX-License-Identifier: MIT
#pragma once

#include <cstdint>
#include <optional>

#include <trialfit/numerics/planner/node.hpp>
#include <trialfit/numerics/planner/relaxation.hpp>

namespace trialfit::numerics {

struct Branches {
    SearchNode preferred;  ///< the half in which the program's solution lies
    SearchNode other;
};

/// Ways to split a node once its program is solved. All methods speak of the program last read.
class Branching {
public:
    Branching(const SearchModel& model, const Relaxation& relaxation)
        : model_(model), relaxation_(relaxation) {}

    /// The open point nearest to the program's thickness of a bin; of those, the one worth most.
    [[nodiscard]] std::uint32_t nearest(const SearchNode& node, std::size_t bin) const;

    [[nodiscard]] static Branches by_activity(SearchNode node, std::size_t activity,
                                              bool likely_made);
    /// Splits what is still open of a kind that is not to be included: the likely half is without.
    /// None when nothing of it is open.
    [[nodiscard]] std::optional<Branches> by_kind(const SearchNode& node,
                                                  const PlanKind& kind) const;
    /// Splits a bin, or where no bin is left to split, an activity; none when nothing is left.
    [[nodiscard]] std::optional<Branches> by_seat(SearchNode node) const;

private:
    /// Of a bin's nearest point: how much worse it is than the program has it.
    [[nodiscard]] double mismatch(const SearchNode& node, std::size_t bin) const;
    [[nodiscard]] double spread_missing(const SearchNode& node, std::size_t bin) const;
    [[nodiscard]] double thickness_of(std::size_t bin, std::uint32_t point) const {
        return model_.choices[bin].points[point].thickness;
    }
    template <typename Likely>
    [[nodiscard]] std::optional<Branches> parted(SearchNode& node, std::size_t bin,
                                                 Likely preferred) const;
    [[nodiscard]] std::optional<Branches> by_shortage(SearchNode& node) const;
    [[nodiscard]] std::optional<Branches> by_spread(SearchNode& node) const;

    const SearchModel& model_;
    const Relaxation& relaxation_;
};

}  // namespace trialfit::numerics
