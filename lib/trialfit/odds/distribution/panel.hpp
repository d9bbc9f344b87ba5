// SPDX-License-Identifier: MIT
#pragma once

#include <array>
#include <trialfit/odds/distribution/part.hpp>

namespace trialfit::odds {

/// Thirty-two complex numbers, real and imaginary parts apart so that the loops over them
/// vectorise.
struct Panel {
    static constexpr std::size_t kSize = 32;
    std::array<double, kSize> re{};
    std::array<double, kSize> im{};
};

/// Points of a path on which the transforms are wanted.
struct Path {
    Panel t;
    /// All points have the same real part (t.re[0]): a vertical line.
    bool vertical = true;
};

/// values *= E exp(-t U) / scale at each point.
void multiply_transform(const Part& part, double scale, const Path& path, Panel& values);
/// values *= corner i of the part / scale at each point.
void multiply_corner(const Part& part, int i, double scale, const Path& path, Panel& values);
/// values *= scale / t.
void multiply_reciprocal(double scale, const Path& path, Panel& values);
/// values *= factors.
void multiply(const Panel& factors, Panel& values);

/// sin and cos of each x to about an ulp of 1 for |x| below 1e5; std::sin and std::cos beyond.
void sines(const std::array<double, Panel::kSize>& x, std::array<double, Panel::kSize>& sine,
           std::array<double, Panel::kSize>& cosine);

/// exp(z^2) erfc(z) at each point (see erfcx.hpp).
[[nodiscard]] Panel erfcx(const Panel& z);

}  // namespace trialfit::odds
