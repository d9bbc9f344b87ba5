// SPDX-License-Identifier: MIT
#pragma once

#include <trialfit/stack/check/requirements.hpp>
#include <vector>

namespace trialfit::stack {

/// The value of a question that is not open (the least of its differences, or the greatest of them
/// where `greatest`) were one size known twice as well: half the width about the same middle, half
/// the scatter. For each of `sizes` in turn, by their columns; in the file's unit. `now`: the value
/// as it is, and as it stays where the closures could then not be met.
[[nodiscard]] std::vector<Bounds> if_halved(const Model& model, const Question& question,
                                            bool greatest, const std::vector<int>& sizes,
                                            const Bounds& now, double inflate);

}  // namespace trialfit::stack
