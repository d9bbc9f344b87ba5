// SPDX-License-Identifier: MIT
#pragma once

#include <complex>
#include <memory>
#include <trialfit/numerics/distribution/distribution.hpp>
#include <vector>

namespace trialfit::numerics {

/// A quadrature of a law over [0, 1], fine enough for transforms with |t| * width up to `reach`.
struct Quadrature {
    std::vector<double> at;
    std::vector<double> weight;
    double reach = 0.0;
};

/// One bounded contributor to a sum, as a variable U >= 0 measured from its lower end. Its Laplace
/// transform E exp(-t U) is entire, and splits into corners,
///   E exp(-t U) = sum over corners of exp(-t offset) corner(t),
/// one for each point where the density breaks; away from 0 the corners fall off algebraically,
/// which lets the contour of integration be turned about each.
struct Term {
    enum class Kind { uniform, triangular, truncated_normal, tabulated };
    Kind kind = Kind::uniform;
    double width = 0.0;
    /// tent: distance from the lower end to the peak.
    double rise = 0.0;
    /// cut: sd of the normal before its cut, the cut in sd, and exp(-cut^2/2) / (2 erf(cut/sqrt
    /// 2)).
    double sd = 0.0;
    double cut = 0.0;
    double edge = 0.0;
    /// ruled: the quadrature.
    std::shared_ptr<const Quadrature> rule = nullptr;
};

using Complex = std::complex<double>;

/// The bounded part of a law scaled by |scale| > 0 and, where scale < 0, mirrored; its width is 0
/// for a law without one.
[[nodiscard]] Term term_of(const Distribution& law, double scale);

/// E exp(-t U).
[[nodiscard]] Complex transform(const Term& part, Complex t);

/// How many corners a part has; 0 where it cannot be split.
[[nodiscard]] int corners(const Term& part);
/// Where corner i (from 0) lies.
[[nodiscard]] double corner_at(const Term& part, int i);
/// corner(t) of the sum above. For |t| well above 1/width only: near 0 the corners cancel.
[[nodiscard]] Complex corner_transform(const Term& part, int i, Complex t);
/// The least |Im t| from which the corners of the part may stand for it.
[[nodiscard]] double split_from(const Term& part);
/// A bound on |E exp(-(tau + i y) U)| to within a small factor, for tau >= 0.
[[nodiscard]] double envelope(const Term& part, double tau, double y);

}  // namespace trialfit::numerics
