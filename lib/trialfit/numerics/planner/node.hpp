// SPDX-License-Identifier: MIT
#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <vector>

#include <trialfit/numerics/linear/simplex.hpp>
#include <trialfit/numerics/planner/search_model.hpp>

namespace trialfit::numerics {

/// A part of the search: what is still open.
struct SearchNode {
    std::vector<ActivityState> states;               ///< of each activity
    std::vector<Interval> amounts;                   ///< of each activity, if it is made
    std::vector<std::vector<std::uint32_t>> stacks;  ///< of each bin: points still open, ascending
    std::vector<Interval> spreads;                   ///< of each bin, over the points still open
    double bound = -kInfinity;                       ///< no plan in this part is worth less
    std::size_t number = 0;                          ///< later nodes have higher ones
    Simplex program;                                 ///< where its bound came from

    [[nodiscard]] bool settled() const;
};

/// The node of which all others are children: everything open that the model leaves open.
[[nodiscard]] SearchNode root_node(const SearchModel& model);

/// To be called when points of a bin were struck out.
void refresh_spread(const SearchModel& model, std::size_t bin, SearchNode& node);

/// Strikes out what cannot be in any plan that meets every row, until nothing more gives. False
/// when nothing is left. `excluded`: kinds that no plan may include.
[[nodiscard]] bool propagate(const SearchModel& model, const std::vector<PlanKind>& excluded,
                             SearchNode& node);

/// Bounds on a row's units over all that is open in a node.
[[nodiscard]] Interval units_range(const SearchModel& model, std::size_t row,
                                   const SearchNode& node);

struct Shares {
    std::optional<std::vector<std::vector<std::size_t>>> stacks;  ///< one for each bin
    bool gave_up = false;  ///< none was found, but not all were tried
};

/// Picks a stack for each bin from the point given for it, no piece used twice; none when there
/// are not enough pieces. Of several, the first in file order.
[[nodiscard]] Shares allocate_stock(const SearchModel& model,
                                    const std::vector<std::uint32_t>& points);

}  // namespace trialfit::numerics
