// SPDX-License-Identifier: MIT
#pragma once

namespace trialfit::quantity {

/// The shape of a size's spread between its limits.
enum class Shape { exact, normal, truncated_normal, uniform, triangular };

/// How a size is spread between its limits. All lengths in the file's unit.
struct Spread {
    Shape shape = Shape::exact;
    /// normal, truncated normal: the limits lie this many standard deviations (of the normal before
    /// it is cut) from the middle.
    double sigmas = 3.0;
    /// Standard deviation of an independent normal scatter added to a uniform gauge error: the
    /// s/sqrt(n) of n repeated readings. 0 for all else. The gauge's own half-width is then the
    /// size's half-width less 3 of these.
    double scatter_sd = 0.0;

    [[nodiscard]] bool operator==(const Spread&) const = default;
};

/// A length with its limits and the shape of its spread between them: one independent variable x_i.
/// Lengths in the file's unit, signed (+ is outboard where the size is an axial position).
/// Always lower <= upper; the nominal may lie outside (50 +0.059 +0.043). A size that nobody has
/// measured has no limits (-infinity and infinity) and no nominal or middle (NaN).
struct Size {
    double nominal = 0.0;
    double lower = 0.0;
    double upper = 0.0;
    Spread spread;

    [[nodiscard]] bool operator==(const Size&) const = default;

    [[nodiscard]] bool is_unmeasured() const;
    /// Middle of the limits, m_i.
    [[nodiscard]] double middle() const { return lower + (upper - lower) / 2.0; }
    /// Half the distance between the limits, h_i >= 0.
    [[nodiscard]] double half_width() const { return (upper - lower) / 2.0; }
    /// Standard deviation of the spread, >= 0: h/sigmas for a normal, h/sqrt(3) for a uniform,
    /// h/sqrt(6) for a symmetric triangular (JCGM 100:2008, 4.3.7 and 4.3.9); for a normal cut at
    /// +-k sd, (h/k) sqrt(1 - 2 k phi(k) / (2 Phi(k) - 1)); for repeated readings of a gauge,
    /// sqrt(a^2/3 + s^2/n); infinite where nobody has measured it.
    [[nodiscard]] double sd() const;
};

/// A size that nobody has measured.
[[nodiscard]] Size unmeasured();

/// A size without spread.
[[nodiscard]] Size exact(double length);

/// `nominal` with limits nominal + minus and nominal + plus (minus <= plus, both signed), spread
/// normally about the middle with the limits at 3 sd; exact where minus == plus.
[[nodiscard]] Size toleranced(double nominal, double minus, double plus);

/// One reading of a gauge good to +-`half_width`: uniform, sd half_width/sqrt(3).
[[nodiscard]] Size reading(double value, double half_width);

/// The mean of n >= 2 readings with sample standard deviation `sample_sd` by a gauge good to
/// +-`gauge_half_width`: half-width a + 3 s/sqrt(n), variance a^2/3 + s^2/n.
[[nodiscard]] Size repeated_reading(double mean, double sample_sd, int n, double gauge_half_width);

}  // namespace trialfit::quantity
