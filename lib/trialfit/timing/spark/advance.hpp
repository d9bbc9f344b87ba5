// SPDX-License-Identifier: MIT
#pragma once

#include <trialfit/timing/answers.hpp>
#include <trialfit/timing/engine.hpp>

namespace trialfit::timing {

/// One setting for each curve that no other adds to, all at every speed at which any curve has a
/// point. `fixed_deg`: the fixed advance, for the curves that stand on it.
[[nodiscard]] trade::Result<std::vector<Setting>> settings(const Engine& engine, double fixed_deg);

/// The first setting against each of the others. All have the same speeds.
[[nodiscard]] std::vector<Comparison> comparisons(const std::vector<Setting>& settings);

}  // namespace trialfit::timing
