// SPDX-License-Identifier: MIT
#pragma once

#include <span>
#include <trialfit/numerics/distribution/sum.hpp>
#include <vector>

namespace trialfit::numerics {

/// The law with half its spread about the middle of its limits (its mean for a normal).
[[nodiscard]] Distribution with_half_the_spread(const Distribution& law);

/// What one size has to do with a check's risk.
struct RiskContributor {
    /// Its share of the sum's variance, 0 to 1.
    double share_of_variance = 0.0;
    /// The probability to fall outside the limits if this size alone had half its spread.
    double outside_if_halved = 0.0;
};

/// One Driver for each contributor to the sum, against the limits (either may be infinite).
[[nodiscard]] std::vector<RiskContributor> risk_contributors(
    std::span<const Contributor> contributors, double constant, double lower, double upper);

}  // namespace trialfit::numerics
