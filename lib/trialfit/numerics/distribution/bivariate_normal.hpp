// SPDX-License-Identifier: MIT
#pragma once

namespace trialfit::numerics {

/// P(X < h, Y < k) of two standard normals with correlation r in [-1, 1]; limits may be infinite.
/// Absolute error below 1e-15; nothing cancels, so the lower tail keeps its digits.
/// By the integral of dPhi2/dr (R. L. Plackett, "A reduction formula for normal multivariate
/// integrals", Biometrika 41, 1954) over the angle asin r, from r = 0, or from r = -1 where r < 0.
[[nodiscard]] double bivariate_normal(double h, double k, double r);

/// P(h0 < X < h1, k0 < Y < k1) of the same.
[[nodiscard]] double bivariate_rectangle(double h0, double h1, double k0, double k1, double r);

}  // namespace trialfit::numerics
