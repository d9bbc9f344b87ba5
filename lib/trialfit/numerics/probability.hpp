// SPDX-License-Identifier: MIT
#pragma once

namespace trialfit::numerics {

/// A probability with the limits of its confidence interval.
struct Probability {
    double value = 0.0;
    double lower = 0.0;
    double upper = 0.0;
};

}  // namespace trialfit::numerics
