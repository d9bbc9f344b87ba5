// SPDX-License-Identifier: MIT
#include <algorithm>
#include <cmath>
#include <limits>
#include <trialfit/numerics/random/estimate.hpp>

namespace trialfit::numerics {

namespace {

// Fewer events than this say too little about the control's slope and the normal's fit.
constexpr double kEnough = 30.0;

struct Means {
    double n = 0.0;
    double y = 0.0;
    double y_variance = 0.0;
    double control = 0.0;
    double control_variance = 0.0;
    double covariance = 0.0;
};

// y less its regression on the control's known error.
Probability regressed(const Means& m, double known) {
    const double successes = m.y * m.n;
    const bool few = std::min(successes, m.n - successes) < kEnough;
    if (few || m.control_variance <= 0.0)
        return wilson(static_cast<std::uint64_t>(std::llround(successes)),
                      static_cast<std::uint64_t>(m.n));
    const double slope = m.covariance / m.control_variance;
    const double value = m.y - slope * (m.control - known);
    const double left = std::max(0.0, m.y_variance - slope * m.covariance);
    // A lone event among n is about what the residuals cannot rule out.
    const double half = kNinetyFive * std::sqrt(std::max(left, 1.0 / m.n) / m.n);
    return {std::clamp(value, 0.0, 1.0), std::max(0.0, value - half), std::min(1.0, value + half)};
}

}  // namespace

Probability wilson(std::uint64_t successes, std::uint64_t samples, double z) {
    const auto n = static_cast<double>(samples);
    const double p = static_cast<double>(successes) / n;
    const double scale = 1.0 / (1.0 + z * z / n);
    const double centre = (p + z * z / (2.0 * n)) * scale;
    const double half = z * std::sqrt(p * (1.0 - p) / n + z * z / (4.0 * n * n)) * scale;
    return {p, successes == 0 ? 0.0 : std::max(0.0, centre - half),
            successes == samples ? 1.0 : std::min(1.0, centre + half)};
}

Probability all_hold(const LinearSampled& sampled, std::span<const double> failing) {
    double known = 0.0;
    for (const double p : failing)
        known += p;
    Means m{.n = static_cast<double>(sampled.samples)};
    m.y = 1.0 - static_cast<double>(sampled.any) / m.n;
    m.y_variance = m.y * (1.0 - m.y);
    m.control = static_cast<double>(sampled.total) / m.n;
    m.control_variance = static_cast<double>(sampled.total_squares) / m.n - m.control * m.control;
    // All hold exactly where the count is 0: E[y count] = 0.
    m.covariance = -m.y * m.control;
    return regressed(m, known);
}

Probability controlled(const Sampled& sampled, std::size_t output, double last_mean) {
    return regressed({.n = static_cast<double>(sampled.samples),
                      .y = sampled.mean[output],
                      .y_variance = sampled.variance[output],
                      .control = sampled.mean.back(),
                      .control_variance = sampled.variance.back(),
                      .covariance = sampled.covariance_with_last[output]},
                     last_mean);
}

double one_in(double probability) {
    if (probability <= 0.0) return std::numeric_limits<double>::infinity();
    const double n = 1.0 / std::min(probability, 1.0);
    if (n < 9.5) return std::round(n);
    const double unit = std::pow(10.0, std::floor(std::log10(n)) - 1.0);
    return std::round(n / unit) * unit;
}

}  // namespace trialfit::numerics
