// SPDX-License-Identifier: MIT
#pragma once

#include <trialfit/stack/model.hpp>
#include <trialfit/survey/answers.hpp>
#include <vector>

namespace trialfit::survey {

/// An observation's own error as the rest sees it: observed less what the rest says, -v/r, and the
/// standard deviation of that, sd/sqrt(r), r = q/sd^2 being its redundancy (Ghilani and Wolf,
/// Adjustment Computations, chapter on blunder detection). All 0 where nothing checks it.
struct OwnError {
    double off_by = 0.0;
    double sd = 0.0;
    double redundancy = 0.0;
    double standardised = 0.0;
};
[[nodiscard]] OwnError own_error(const stack::SizeColumns& sizes,
                                 const stack::Ties::Adjustment& adjustment, Eigen::Index size);

/// Everything that could explain a disagreement, most likely first: each reading, each size, and
/// each gauge taken as off by one amount in all that it read. `bound` carries the readings.
[[nodiscard]] std::vector<Suspect> suspects(const stack::Model& bound,
                                            const stack::Ties::Adjustment& adjustment);

}  // namespace trialfit::survey
