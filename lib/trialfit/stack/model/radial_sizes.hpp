// SPDX-License-Identifier: MIT
#pragma once

#include <trialfit/stack/model/model.hpp>
#include <vector>

namespace trialfit::stack {

/// Adds to `sizes` what a radial gap is made of: clearances, runouts and the rings' diameters.
[[nodiscard]] RadialSizes radial_sizes(const job::Job& job, std::vector<Variable>& sizes);

}  // namespace trialfit::stack
