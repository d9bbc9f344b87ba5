// SPDX-License-Identifier: MIT
#pragma once

namespace trialfit::survey {

/// The probability that a chi-square variable with `freedom` >= 1 degrees of freedom exceeds
/// `x` >= 0: Q(freedom/2, x/2) by its finite sums (M. Abramowitz and I. A. Stegun, Handbook of
/// Mathematical Functions, 26.4.4 and 26.4.5). 1 for freedom 0.
[[nodiscard]] double chi_square_survival(double x, int freedom);

}  // namespace trialfit::survey
