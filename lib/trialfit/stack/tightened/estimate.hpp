// SPDX-License-Identifier: MIT
#pragma once

namespace trialfit::stack {

/// A figure with its extremes over every stated range at once, and at the middles of all ranges.
struct Estimate {
    double least = 0.0;
    double middle = 0.0;
    double greatest = 0.0;
};

}  // namespace trialfit::stack
