// SPDX-License-Identifier: MIT
#include <cmath>
#include <limits>
#include <numbers>
#include <stdexcept>
#include <trialfit/numerics/distribution/distribution.hpp>
#include <trialfit/numerics/infinity.hpp>

namespace trialfit::numerics {

namespace {

// Of the standard normal cut at +-c: E z^2 and E z^4 by parts from Z = erf(c / sqrt 2).
Moments cut_moments(double c) {
    if (c < 0.03) {  // the closed form cancels; series about the uniform
        const double c2 = c * c;
        const double m2 = c2 / 3.0 - 2.0 * c2 * c2 / 45.0 + 2.0 * c2 * c2 * c2 / 945.0;
        const double m4 = c2 * c2 / 5.0 - 4.0 * c2 * c2 * c2 / 105.0;
        return {.variance = m2, .fourth_cumulant = m4 - 3.0 * m2 * m2};
    }
    const double density = std::exp(-c * c / 2.0) / std::sqrt(2.0 * std::numbers::pi);
    const double inside = std::erf(c / std::numbers::sqrt2);
    const double m2 = 1.0 - 2.0 * c * density / inside;
    const double m4 = 3.0 * m2 - 2.0 * c * c * c * density / inside;
    return {.variance = m2, .fourth_cumulant = m4 - 3.0 * m2 * m2};
}

Moments triangular_moments(const Distribution& law) {
    const double a = law.from;
    const double m = law.mode;
    const double b = law.to;
    const double rise = m - a;
    const double fall = b - m;
    const double variance = (rise * rise + rise * fall + fall * fall) / 18.0;
    const double third = (fall - rise) * (2.0 * rise + fall) * (rise + 2.0 * fall) / 270.0;
    return {.mean = (a + m + b) / 3.0,
            .variance = variance,
            .third = third,
            .fourth_cumulant = -0.6 * variance * variance};
}

Moments beta_moments(const Distribution& law) {
    const double w = law.to - law.from;
    const double a = law.a;
    const double b = law.b;
    const double n = a + b;
    const double variance = w * w * a * b / (n * n * (n + 1.0));
    const double skewness = 2.0 * (b - a) * std::sqrt(n + 1.0) / ((n + 2.0) * std::sqrt(a * b));
    const double excess =
        6.0 * ((a - b) * (a - b) * (n + 1.0) - a * b * (n + 2.0)) / (a * b * (n + 2.0) * (n + 3.0));
    return {.mean = law.from + w * a / n,
            .variance = variance,
            .third = skewness * variance * std::sqrt(variance),
            .fourth_cumulant = excess * variance * variance};
}

double triangular_quantile(const Distribution& law, double p) {
    const double w = law.to - law.from;
    const double rise = law.mode - law.from;
    if (p * w <= rise) return law.from + std::sqrt(p * w * rise);
    return law.to - std::sqrt((1.0 - p) * w * (law.to - law.mode));
}

// p counted from the nearer end so that both tails keep their digits.
double truncated_quantile(const Distribution& law, double p) {
    const double outside = normal_cdf(-law.cut);
    const double inside = std::erf(law.cut / std::numbers::sqrt2);
    const double mean = (law.from + law.to) / 2.0;
    const double z = p < 0.5 ? normal_quantile(outside + p * inside)
                             : -normal_quantile(outside + (1.0 - p) * inside);
    return mean + law.sd * z;
}

}  // namespace

Distribution exactly(double value) {
    return {.from = value, .to = value};
}

Distribution normal(double mean, double sd) {
    if (sd == 0.0) return exactly(mean);
    return {.kind = DistributionKind::normal, .from = mean, .to = mean, .sd = sd};
}

Distribution truncated_normal(double mean, double sd, double cut) {
    if (sd == 0.0 || cut == 0.0) return exactly(mean);
    return {.kind = DistributionKind::truncated_normal,
            .from = mean - cut * sd,
            .to = mean + cut * sd,
            .sd = sd,
            .cut = cut};
}

Distribution uniform(double from, double to) {
    if (from == to) return exactly(from);
    return {.kind = DistributionKind::uniform, .from = from, .to = to};
}

Distribution triangular(double from, double mode, double to) {
    if (from == to) return exactly(from);
    return {.kind = DistributionKind::triangular, .from = from, .to = to, .mode = mode};
}

Distribution gauge(double mean, double half_width, double scatter_sd) {
    if (half_width == 0.0) return normal(mean, scatter_sd);
    if (scatter_sd == 0.0) return uniform(mean - half_width, mean + half_width);
    return {.kind = DistributionKind::gauge,
            .from = mean - half_width,
            .to = mean + half_width,
            .sd = scatter_sd};
}

Distribution arcsine(double middle, double amplitude) {
    return beta(middle - amplitude, middle + amplitude, 0.5, 0.5);
}

Distribution beta(double from, double to, double a, double b) {
    if (from == to) return exactly(from);
    return {.kind = DistributionKind::beta, .from = from, .to = to, .a = a, .b = b};
}

Moments moments(const Distribution& law) {
    const double w = law.to - law.from;
    const double middle = law.from + w / 2.0;
    const double var = law.sd * law.sd;
    switch (law.kind) {
        case DistributionKind::normal:
            return {.mean = law.from, .variance = var};
        case DistributionKind::truncated_normal: {
            const Moments z = cut_moments(law.cut);
            return {.mean = middle,
                    .variance = z.variance * var,
                    .fourth_cumulant = z.fourth_cumulant * var * var};
        }
        case DistributionKind::uniform:
        case DistributionKind::gauge:
            return {.mean = middle,
                    .variance = w * w / 12.0 + var,
                    .fourth_cumulant = -w * w * w * w / 120.0};
        case DistributionKind::triangular:
            return triangular_moments(law);
        case DistributionKind::beta:
            return beta_moments(law);
        case DistributionKind::exact:
            break;
    }
    return {.mean = law.from};
}

double quantile(const Distribution& law, double p) {
    switch (law.kind) {
        case DistributionKind::exact:
            return law.from;
        case DistributionKind::normal:
            return law.from + law.sd * normal_quantile(p);
        case DistributionKind::truncated_normal:
            return truncated_quantile(law, p);
        case DistributionKind::uniform:
            return law.from + p * (law.to - law.from);
        case DistributionKind::triangular:
            return triangular_quantile(law, p);
        case DistributionKind::beta:
            if (law.a == 0.5 && law.b == 0.5) {
                const double s = std::sin(std::numbers::pi / 2.0 * p);
                return law.from + (law.to - law.from) * s * s;
            }
            break;
        case DistributionKind::gauge:
            break;
    }
    throw std::invalid_argument("this law has no closed quantile");
}

double normal_cdf(double z) {
    return 0.5 * std::erfc(-z / std::numbers::sqrt2);
}

double normal_quantile(double p) {
    if (p > 0.5) return -normal_quantile(1.0 - p);
    const double w = std::sqrt(-2.0 * std::log(p));
    double z = -(w - (2.515517 + w * (0.802853 + w * 0.010328)) /
                         (1.0 + w * (1.432788 + w * (0.189269 + w * 0.001308))));
    for (int step = 0; step < 2; ++step) {  // Halley: 5e-4, then 1e-11, then rounding
        const double density = std::exp(-z * z / 2.0) / std::sqrt(2.0 * std::numbers::pi);
        const double newton = (normal_cdf(z) - p) / density;
        z -= newton / (1.0 + z * newton / 2.0);
    }
    return z;
}

}  // namespace trialfit::numerics
