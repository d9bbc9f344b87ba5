// SPDX-License-Identifier: MIT
#pragma once

#include <limits>

namespace trialfit::plan {

inline constexpr double kInfinity = std::numeric_limits<double>::infinity();
/// Lengths closer than this are the same: the rest is rounding, not metal.
inline constexpr double kSameLength = 1e-9;

/// Beyond any length in a job, and small enough to keep digits.
inline constexpr double kFar = 1e6;

}  // namespace trialfit::plan
