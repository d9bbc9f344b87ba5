// SPDX-License-Identifier: MIT
#pragma once

#include <limits>

namespace trialfit::numerics {

inline constexpr double kInfinity = std::numeric_limits<double>::infinity();

}  // namespace trialfit::numerics
