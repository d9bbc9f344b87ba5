// SPDX-License-Identifier: MIT
#pragma once

namespace trialfit::numerics {

/// The kinds of spread a size may have.
enum class DistributionKind { exact, normal, truncated_normal, uniform, triangular, gauge, beta };

/// The law (probability distribution) of one size. Lengths in the file's unit. Make one with the
/// functions below, which keep its fields consistent.
struct Distribution {
    DistributionKind kind = DistributionKind::exact;
    /// Where the bounded part begins and ends. For a normal both are its mean; for `gauge` they are
    /// the limits of the gauge error alone.
    double from = 0.0;
    double to = 0.0;
    /// triangular: the most probable value, from <= mode <= to.
    double mode = 0.0;
    /// normal: its sd; truncated normal: the sd before it is cut; gauge: the sd of the scatter.
    double sd = 0.0;
    /// truncated normal: the cuts lie this many sd from the mean.
    double cut = 0.0;
    /// beta: its two shape parameters.
    double a = 0.0;
    double b = 0.0;

    [[nodiscard]] bool operator==(const Distribution&) const = default;
};

/// No spread.
[[nodiscard]] Distribution exactly(double value);
/// Normal; sd >= 0 (0 gives `exactly`).
[[nodiscard]] Distribution normal(double mean, double sd);
/// A normal of standard deviation `sd` (before the cut) cut at mean +- cut * sd.
[[nodiscard]] Distribution truncated_normal(double mean, double sd, double cut);
/// Uniform over from..to.
[[nodiscard]] Distribution uniform(double from, double to);
/// Triangular over from..to with its peak at `mode`.
[[nodiscard]] Distribution triangular(double from, double mode, double to);
/// A uniform gauge error of +-half_width and an independent normal scatter: repeated readings.
[[nodiscard]] Distribution gauge(double mean, double half_width, double scatter_sd);
/// middle + amplitude * cos(angle), the angle uniform: runout, or a temperature which swings.
[[nodiscard]] Distribution arcsine(double middle, double amplitude);
/// from + (to - from) * Beta(a, b); a, b >= 1/2.
[[nodiscard]] Distribution beta(double from, double to, double a, double b);

/// Mean, and the second and third central moments (lengths squared and cubed), of a law, and its
/// fourth cumulant (0 for a normal).
struct Moments {
    double mean = 0.0;
    double variance = 0.0;
    double third = 0.0;
    double fourth_cumulant = 0.0;
};
[[nodiscard]] Moments moments(const Distribution& law);

/// Ends of a law's support; infinite for `normal` and `gauge` with scatter.
struct Support {
    double lower = 0.0;
    double upper = 0.0;
};

/// The value below which `law` lies with probability p in (0, 1), good to some 1e-14 of its width;
/// what sampling by inversion uses. Closed form save for `gauge` and `beta`, which have none here:
/// std::invalid_argument (ask a SumDistribution of the one law).
[[nodiscard]] double quantile(const Distribution& law, double p);

/// Standard normal distribution function, with full relative accuracy in the lower tail.
[[nodiscard]] double normal_cdf(double z);
/// Its inverse, for p in (0, 1), to rounding: M. Abramowitz and I. A. Stegun, Handbook of
/// Mathematical Functions, 1964, 26.2.23 for the start, then two Halley steps.
[[nodiscard]] double normal_quantile(double p);

}  // namespace trialfit::numerics
