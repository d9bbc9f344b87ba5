// SPDX-License-Identifier: MIT
#pragma once

#include <cstddef>
#include <optional>
#include <vector>

#include <trialfit/plan/search/model.hpp>
#include <trialfit/plan/settle/simplex.hpp>

namespace trialfit::plan {

/// A selection with its best depths.
struct Candidate {
    Selection selection;
    std::vector<double> depths;    ///< one for each cut
    std::vector<double> loosened;  ///< one for each loosening
    double cost = 0.0;             ///< as cost_of() has it, whatever the goal
    double aim_distance = 0.0;
    int shims = 0;
    double value = 0.0;  ///< under the goal
};

/// The depths that are best under `goal` for a selection, its cost no more than `most_cost`; none
/// when no depths meet every row. The margins are constant here, so that this is a linear program.
[[nodiscard]] std::optional<Candidate> settle(const Model& model, const Goal& goal,
                                              const Selection& selection, double most_cost);

/// Sum over the cuts made and the shims fitted, those of seats that are set to an aim aside.
[[nodiscard]] double cost_of(const Problem& problem, const Selection& selection,
                             const std::vector<double>& depths);

/// What the shims of seats that are set to an aim cost.
[[nodiscard]] double price_set_to_aim(const Problem& problem, const Selection& selection);

/// A row's middle for a selection and its depths.
[[nodiscard]] double middle_of(const Problem& problem, std::size_t row, const Selection& selection,
                               const std::vector<double>& depths);

}  // namespace trialfit::plan
