// SPDX-License-Identifier: MIT
#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>
#include <trialfit/numerics/distribution/sum.hpp>
#include <trialfit/numerics/distribution/told.hpp>
#include <trialfit/numerics/infinity.hpp>

namespace trialfit::numerics {

namespace {

double normal_density(double z) {
    return std::exp(-z * z / 2.0) / std::sqrt(2.0 * std::numbers::pi);
}

// `law` as sensitivity * law, mirrored where the sensitivity is negative.
Distribution scaled(const Distribution& law, double s) {
    Distribution out = law;
    out.from = s * (s > 0.0 ? law.from : law.to);
    out.to = s * (s > 0.0 ? law.to : law.from);
    out.mode = s * law.mode;
    out.sd = std::abs(s) * law.sd;
    if (s < 0.0) std::swap(out.a, out.b);
    return out;
}

// Regularised incomplete beta function for x <= 1/2 by the double exponential rule.
double beta_lower(double a, double b, double x) {
    double sum = 0.0;
    double mass = 0.0;
    constexpr double kStep = 0.03;
    // NOLINTNEXTLINE(clang-analyzer-security.FloatLoopCounter): steps of its own
    for (double v = -4.5; v <= 4.5; v += kStep) {
        const double g = std::numbers::pi * std::sinh(v);
        const double s = 1.0 / (1.0 + std::exp(-g));
        const double rest = 1.0 / (1.0 + std::exp(g));
        sum += std::pow(s, a) * rest * std::cosh(v) * std::pow(1.0 - x * s, b - 1.0);
        mass += std::pow(s, a) * std::pow(rest, b) * std::cosh(v);
    }
    return std::pow(x, a) * sum / mass;
}

double beta_cdf(const Distribution& law, double u) {
    if (law.a == 0.5 && law.b == 0.5) return 2.0 / std::numbers::pi * std::asin(std::sqrt(u));
    return u <= 0.5 ? beta_lower(law.a, law.b, u) : 1.0 - beta_lower(law.b, law.a, 1.0 - u);
}

}  // namespace

double cdf(const Distribution& law, double x) {
    if (law.kind == DistributionKind::normal) return normal_cdf((x - law.from) / law.sd);
    if (x >= law.to) return 1.0;
    if (x <= law.from) return 0.0;
    const double w = law.to - law.from;
    const double u = (x - law.from) / w;
    if (law.kind == DistributionKind::triangular) {
        if (x <= law.mode) return u * (x - law.from) / (law.mode - law.from);
        return 1.0 - (law.to - x) / w * ((law.to - x) / (law.to - law.mode));
    }
    if (law.kind == DistributionKind::truncated_normal) {
        // From the cut inwards: Phi(z) - Phi(-c) without cancelling, by the integral's own series.
        const double depth = (x - law.from) / law.sd;
        const double z = depth - law.cut;
        const double inside = std::erf(law.cut / std::numbers::sqrt2);
        if (depth < 1e-2) {
            const double c = law.cut;
            const double d = depth;
            return normal_density(c) * d / inside *
                   (1.0 + d * (c / 2.0 + d * ((c * c - 1.0) / 6.0 +
                                              d * (c * (c * c - 3.0) / 24.0 +
                                                   d * (c * c * (c * c - 6.0) + 3.0) / 120.0))));
        }
        return (normal_cdf(z) - normal_cdf(-law.cut)) / inside;
    }
    return law.kind == DistributionKind::beta ? beta_cdf(law, u) : u;
}

double density(const Distribution& law, double x) {
    if (law.kind == DistributionKind::normal)
        return normal_density((x - law.from) / law.sd) / law.sd;
    if (x > law.to || x < law.from) return 0.0;
    const double w = law.to - law.from;
    switch (law.kind) {
        case DistributionKind::exact:
            return kInfinity;
        case DistributionKind::triangular:
            if (x < law.mode) return 2.0 * (x - law.from) / (w * (law.mode - law.from));
            if (x > law.mode) return 2.0 * (law.to - x) / (w * (law.to - law.mode));
            return 2.0 / w;
        case DistributionKind::truncated_normal:
            return normal_density((x - law.from) / law.sd - law.cut) /
                   (law.sd * std::erf(law.cut / std::numbers::sqrt2));
        case DistributionKind::beta: {
            const double u = (x - law.from) / w;
            const double log_beta =
                std::lgamma(law.a) + std::lgamma(law.b) - std::lgamma(law.a + law.b);
            return std::pow(u, law.a - 1.0) * std::pow(1.0 - u, law.b - 1.0) * std::exp(-log_beta) /
                   w;
        }
        default:
            return 1.0 / w;
    }
}

SumDistribution::SumDistribution(std::span<const Contributor> contributors, double constant) {
    // Long doubles: in the tails a point's distance from the end of the support is all that counts.
    long double low = constant;
    long double high = constant;
    long double mean = constant;
    long double normals = 0.0;
    for (const auto& [sensitivity, law] : contributors) {
        if (sensitivity == 0.0) continue;
        const long double s = sensitivity;
        const Moments m = numerics::moments(law);
        mean += s * m.mean;
        moments_.variance += sensitivity * sensitivity * m.variance;
        moments_.third += std::pow(sensitivity, 3) * m.third;
        moments_.fourth_cumulant += std::pow(sensitivity, 4) * m.fourth_cumulant;
        low += s * (s > 0 ? law.from : law.to);
        high += s * (s > 0 ? law.to : law.from);
        if (law.kind == DistributionKind::normal || law.kind == DistributionKind::gauge)
            normals += s * s * law.sd * law.sd;
        if (law.from == law.to) continue;
        single_.push_back(scaled(law, sensitivity));
        lower_.heap.parts.push_back(term_of(law, sensitivity));
        upper_.heap.parts.push_back(term_of(law, -sensitivity));
    }
    moments_.mean = static_cast<double>(mean);
    lower_.from = static_cast<double>(low);
    upper_.from = static_cast<double>(high);
    upper_.sign = -1.0;
    lower_.heap.sigma = upper_.heap.sigma = static_cast<double>(std::sqrt(normals));
    lower_.heap.sd = upper_.heap.sd = sd();
    lower_.heap.mean = static_cast<double>(mean - low);
    upper_.heap.mean = static_cast<double>(high - mean);
    support_ = normals > 0 ? Support{-kInfinity, kInfinity} : Support{lower_.from, upper_.from};
    if (single_.size() == 1 && normals == 0) {
        // Keep the one law's closed form, moved by the constant and the exact sizes.
        Distribution& law = single_.front();
        law.mode += lower_.from - law.from;
        law.from = lower_.from;
        law.to = upper_.from;
    } else {
        single_.clear();
    }
}

double SumDistribution::sd() const {
    return std::sqrt(moments_.variance);
}

double SumDistribution::skewness() const {
    return moments_.variance > 0.0 ? moments_.third / std::pow(moments_.variance, 1.5) : 0.0;
}

double SumDistribution::excess_kurtosis() const {
    const double v = moments_.variance;
    return v > 0.0 ? moments_.fourth_cumulant / (v * v) : 0.0;
}

// P(sum beyond x), on the side from which x is seen.
double SumDistribution::below(const Side& side, double x) const {
    const SumTerms& heap = side.heap;
    const double reach = side.sign * (x - side.from);
    if (heap.parts.empty() && heap.sigma == 0.0) return reach >= 0.0 && side.sign > 0.0 ? 1.0 : 0.0;
    if (heap.parts.empty()) return normal_cdf(reach / heap.sigma);
    if (heap.sigma == 0.0 && reach <= 0.0) return 0.0;
    if (!single_.empty()) {
        const Distribution& law = single_.front();
        if (side.sign > 0.0) return numerics::cdf(law, x);
        return numerics::cdf(scaled(law, -1.0), -x);
    }
    return std::clamp(invert(heap, reach, SumQuantity::cdf), 0.0, 1.0);
}

double SumDistribution::cdf(double x) const {
    if (x >= support_.upper) return 1.0;
    if (lower_.heap.parts.empty() || x <= mean()) return below(lower_, x);
    return 1.0 - below(upper_, x);
}

double SumDistribution::survival(double x) const {
    if (support_.lower == support_.upper) return x < support_.lower ? 1.0 : 0.0;
    if (x <= support_.lower) return 1.0;
    if (lower_.heap.parts.empty() || x >= mean()) return below(upper_, x);
    return 1.0 - below(lower_, x);
}

double SumDistribution::between(double lower, double upper) const {
    if (!(lower < upper)) return 0.0;
    if (lower > mean()) return survival(lower) - survival(upper);
    if (upper < mean()) return cdf(upper) - cdf(lower);
    return 1.0 - outside(lower, upper);
}

double SumDistribution::outside(double lower, double upper) const {
    const double under = lower == -kInfinity ? 0.0 : cdf(lower);
    const double over = upper == kInfinity ? 0.0 : survival(upper);
    return std::min(1.0, told(under + over));
}

double SumDistribution::density(const Side& side, double x) const {
    const SumTerms& heap = side.heap;
    const double reach = side.sign * (x - side.from);
    if (heap.parts.empty() && heap.sigma == 0.0) return reach == 0.0 ? kInfinity : 0.0;
    if (heap.parts.empty()) return normal_density(reach / heap.sigma) / heap.sigma;
    if (!single_.empty()) return numerics::density(single_.front(), x);
    if (heap.sigma == 0.0 && reach <= 0.0) return 0.0;
    return std::max(0.0, invert(heap, reach, SumQuantity::pdf));
}

double SumDistribution::density(double x) const {
    return density(x <= mean() ? lower_ : upper_, x);
}

// Newton on the logarithm of the probability, kept within a bracket.
double SumDistribution::tail_quantile(const Side& side, double p) const {
    const double z = normal_quantile(p);
    const double skew = side.sign * skewness();
    const double start =
        z + skew * (z * z - 1.0) / 6.0 + excess_kurtosis() * z * (z * z - 3.0) / 24.0;
    // A normal's tails end, for all that doubles can tell, forty sd beyond the bounded parts.
    const double beyond = 40.0 * side.heap.sigma;
    double near = -beyond;
    double far = std::abs(upper_.from - lower_.from) + beyond;
    const double middle = side.sign * (mean() - side.from);
    double reach = middle + sd() * start;
    if (!(reach > near && reach < far)) reach = middle / 2.0;
    for (int step = 0; step < 100; ++step) {
        const double x = side.from + side.sign * reach;
        const double here = below(side, x);
        (here < p ? near : far) = reach;
        const double rise = density(side, x);
        double next = reach + std::log(p / here) * here / rise;
        if (!(next > near && next < far)) next = (near + far) / 2.0;
        const double moved = std::abs(next - reach);
        reach = next;
        if (moved <= 1e-14 * sd()) break;
    }
    return told(side.from + side.sign * reach);
}

double SumDistribution::quantile(double p) const {
    if (support_.lower == support_.upper || p <= 0.0) return support_.lower;
    if (p >= 1.0) return support_.upper;
    if (!single_.empty() && single_.front().kind != DistributionKind::beta)
        return numerics::quantile(single_.front(), p);
    if (lower_.heap.parts.empty()) return mean() + lower_.heap.sigma * normal_quantile(p);
    return p <= 0.5 ? tail_quantile(lower_, p) : tail_quantile(upper_, 1.0 - p);
}

}  // namespace trialfit::numerics
