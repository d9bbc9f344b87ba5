// SPDX-License-Identifier: MIT
#pragma once

#include <trialfit/numerics/distribution/distribution.hpp>
#include <trialfit/quantity/size.hpp>

namespace trialfit::odds {

/// The distribution of a written size: its spread between its limits, about their middle.
[[nodiscard]] numerics::Distribution distribution_of(const quantity::Size& size);

}  // namespace trialfit::odds
