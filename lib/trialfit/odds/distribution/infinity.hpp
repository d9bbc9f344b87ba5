// SPDX-License-Identifier: MIT
#pragma once

#include <limits>

namespace trialfit::odds {

inline constexpr double kInfinity = std::numeric_limits<double>::infinity();

}  // namespace trialfit::odds
