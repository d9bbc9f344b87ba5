// SPDX-License-Identifier: MIT
#pragma once

#include <cstddef>
#include <optional>
#include <vector>

#include <trialfit/numerics/planner/deadline.hpp>
#include <trialfit/numerics/planner/search_model.hpp>
#include <trialfit/numerics/planner/solve_amounts.hpp>

namespace trialfit::numerics {

struct SearchOptions {
    Goal goal;
    std::vector<PlanKind> excluded;        ///< kinds that no plan may include
    double most_cost = kInfinity;          ///< of the plan, whatever the goal
    std::optional<PricedSelection> known;  ///< to be beaten; its value under this goal
    double tolerance = 1e-9;               ///< values nearer than this are the same
    bool any_will_do = false;              ///< stop at the first plan found
    std::optional<std::size_t> most_nodes;
};

struct SearchResult {
    std::optional<PricedSelection> best;
    bool proven = false;  ///< nothing is better; or, with none, there is none
    bool tied = false;    ///< another may be as good
    double bound = -kInfinity;
    std::size_t nodes = 0;
};

/// Branch and bound over the activities and the stacks. Depth first, the likelier half first. Each
/// part is narrowed by propagation, bounded by its linear relaxation and narrowed again by what its
/// choices would cost; an activity is chosen for branching by trying both ways on its program.
[[nodiscard]] SearchResult search(const SearchModel& model, const SearchOptions& hunt,
                                  Deadline& clock);

}  // namespace trialfit::numerics
