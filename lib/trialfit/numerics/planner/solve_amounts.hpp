// SPDX-License-Identifier: MIT
#pragma once

#include <cstddef>
#include <optional>
#include <vector>

#include <trialfit/numerics/linear/simplex.hpp>
#include <trialfit/numerics/planner/search_model.hpp>

namespace trialfit::numerics {

/// A selection with its best amounts.
struct PricedSelection {
    Selection selection;
    std::vector<double> amounts;   ///< one for each activity
    std::vector<double> loosened;  ///< one for each loosening
    double cost = 0.0;             ///< as cost_of() has it, whatever the goal
    double aim_distance = 0.0;
    int items = 0;
    double value = 0.0;  ///< under the goal
};

/// The amounts that are best under `goal` for a selection, its cost no more than `most_cost`; none
/// when no amounts meet every row. The margins are constant here, so that this is a linear program.
[[nodiscard]] std::optional<PricedSelection> solve_amounts(const SearchModel& model,
                                                           const Goal& goal,
                                                           const Selection& selection,
                                                           double most_cost);

/// Sum over the activities made and the items fitted, those of bins that are set to an aim aside.
[[nodiscard]] double cost_of(const Problem& problem, const Selection& selection,
                             const std::vector<double>& amounts);

/// What the items of bins that are set to an aim cost.
[[nodiscard]] double price_set_to_aim(const Problem& problem, const Selection& selection);

/// A row's middle for a selection and its amounts.
[[nodiscard]] double middle_of(const Problem& problem, std::size_t row, const Selection& selection,
                               const std::vector<double>& amounts);

}  // namespace trialfit::numerics
