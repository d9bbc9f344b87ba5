// SPDX-License-Identifier: MIT
#pragma once

#include <array>
#include <complex>

namespace trialfit::numerics {

/// The nodes of the two rules below: squares and weights, [0] of the midpoint rule, [1] of the
/// trapezoidal rule without its node at 0.
struct ErfcxRules {
    static constexpr std::size_t kNodes = 12;
    double step = 0.0;
    std::array<std::array<double, 2>, kNodes> square{};
    std::array<std::array<double, 2>, kNodes> weight{};
};
[[nodiscard]] const ErfcxRules& erfcx_rules();

/// exp(z^2) erfc(z), the scaled complementary error function, for Re z >= 0 to a relative error of
/// some 1e-15. For Re z < 0 by 2 exp(z^2) - erfcx(-z).
/// By the modified midpoint and trapezoidal rules of M. Al Azah and S. N. Chandler-Wilde,
/// "Computation of the complex error function using modified trapezoidal rules", SIAM J. Numer.
/// Anal. 59, 2021 (from memory; held to multi-precision values in the tests), with erfcx(z) =
/// w(iz); beyond |z| = 30 by the asymptotic series.
[[nodiscard]] std::complex<double> erfcx(std::complex<double> z);

}  // namespace trialfit::numerics
