// SPDX-License-Identifier: MIT
#pragma once

#include <trialfit/numerics/infinity.hpp>

namespace trialfit::numerics {

/// Lengths closer than this are the same: the rest is rounding, not metal.
inline constexpr double kSameLength = 1e-9;

/// Beyond any length in a job, and small enough to keep digits.
inline constexpr double kFar = 1e6;

}  // namespace trialfit::numerics
