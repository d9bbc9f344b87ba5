// SPDX-License-Identifier: MIT
#pragma once

#include <trialfit/numerics/distribution/sum.hpp>
#include <trialfit/stack/answers.hpp>

namespace trialfit::odds {

/// The shifts c, least and greatest, for which lower <= sum + c <= upper has at least the chance
/// `level` (a half or more); limits may be infinite, and so may the shifts. least > greatest where
/// no shift gives as much. By the sum's quantiles, and with two limits by bisection from the shift
/// that centres it: for sums even about their middle and falling off from it, as all sums of
/// written sizes are.
[[nodiscard]] stack::Range shifts(const numerics::SumDistribution& sum, double lower, double upper,
                                  double level);

}  // namespace trialfit::odds
