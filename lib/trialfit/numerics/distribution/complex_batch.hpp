// SPDX-License-Identifier: MIT
#pragma once

#include <array>
#include <trialfit/numerics/distribution/term.hpp>

namespace trialfit::numerics {

/// Thirty-two complex numbers, real and imaginary parts apart so that the loops over them
/// vectorise.
struct ComplexBatch {
    static constexpr std::size_t kSize = 32;
    std::array<double, kSize> re{};
    std::array<double, kSize> im{};
};

/// Points of a path on which the transforms are wanted.
struct ContourBatch {
    ComplexBatch t;
    /// All points have the same real part (t.re[0]): a vertical line.
    bool vertical = true;
};

/// values *= E exp(-t U) / scale at each point.
void multiply_transform(const Term& part, double scale, const ContourBatch& path,
                        ComplexBatch& values);
/// values *= corner i of the part / scale at each point.
void multiply_corner(const Term& part, int i, double scale, const ContourBatch& path,
                     ComplexBatch& values);
/// values *= scale / t.
void multiply_reciprocal(double scale, const ContourBatch& path, ComplexBatch& values);
/// values *= factors.
void multiply(const ComplexBatch& factors, ComplexBatch& values);

/// sin and cos of each x to about an ulp of 1 for |x| below 1e5; std::sin and std::cos beyond.
void sines(const std::array<double, ComplexBatch::kSize>& x,
           std::array<double, ComplexBatch::kSize>& sine,
           std::array<double, ComplexBatch::kSize>& cosine);

/// exp(z^2) erfc(z) at each point (see erfcx.hpp).
[[nodiscard]] ComplexBatch erfcx(const ComplexBatch& z);

}  // namespace trialfit::numerics
