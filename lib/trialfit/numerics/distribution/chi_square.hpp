// SPDX-License-Identifier: MIT
#pragma once

namespace trialfit::numerics {

/// The probability that a chi-square variable with `freedom` degrees of freedom exceeds `x`:
/// Q(freedom/2, x/2), the regularised incomplete gamma function (M. Abramowitz and I. A. Stegun,
/// Handbook of Mathematical Functions, 26.4.2 and 26.4.19). 1 for freedom 0 or less, or x 0 or
/// less.
[[nodiscard]] double chi_square_survival(double x, int freedom);

}  // namespace trialfit::numerics
