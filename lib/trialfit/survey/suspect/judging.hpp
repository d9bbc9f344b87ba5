// SPDX-License-Identifier: MIT
#pragma once

namespace trialfit::survey {

/// Disagreement: less likely by chance than this.
inline constexpr double kByChance = 0.001;
/// Two explanations whose chi-squares lie closer than this (odds of e^2, 7 to 1) cannot be told
/// apart.
inline constexpr double kTold = 4.0;
/// A redundancy below this is rounding: nothing checks the observation.
inline constexpr double kChecked = 1e-9;

}  // namespace trialfit::survey
