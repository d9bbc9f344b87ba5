// SPDX-License-Identifier: MIT
#pragma once

#include <array>
#include <cstddef>

namespace trialfit::numerics {

/// The 32-point Gauss-Legendre rule on [-1, 1]: exact for polynomials up to degree 63.
struct GaussLegendre {
    static constexpr int kOrder = 32;
    std::array<double, kOrder> at{};
    std::array<double, kOrder> weight{};
};
[[nodiscard]] const GaussLegendre& gauss_legendre();

}  // namespace trialfit::numerics
