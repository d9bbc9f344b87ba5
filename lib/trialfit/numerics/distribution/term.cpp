// SPDX-License-Identifier: MIT
#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>
#include <trialfit/numerics/distribution/erfcx.hpp>
#include <trialfit/numerics/distribution/term.hpp>

namespace trialfit::numerics {

namespace {

// (1 - exp(-u)) / u.
Complex box_transform(Complex u) {
    if (std::norm(u) < 0.04) {
        Complex sum = 1.0;
        for (int k = 12; k >= 2; --k)
            sum = 1.0 - sum * u / static_cast<double>(k);
        return sum;
    }
    return (1.0 - std::exp(-u)) / u;
}

// With rise and fall in shares of the width and u = t width.
Complex tent_transform(double rise, Complex u) {
    const double fall = 1.0 - rise;
    if (rise == fall) {
        const Complex half = box_transform(u / 2.0);
        return half * half;
    }
    const Complex shift = std::exp(-rise * u);
    if (std::norm(u) < 4.0) {
        Complex sum = 0.0;
        Complex power = 2.0;
        double up = rise;
        double down = -fall;
        for (int k = 1; k <= 22; ++k) {
            power /= k + 1.0;
            sum += (up - down) * power;
            power *= u;
            up *= rise;
            down *= -fall;
        }
        return shift * sum;
    }
    return 2.0 / u * (box_transform(rise * u) - shift * box_transform(fall * u));
}

// Gauss-Legendre, 12 points on [-1, 1], upper half: for narrow cuts near t = 0.
constexpr std::array<double, 6> kGaussAt = {0.1252334085114689, 0.3678314989981802,
                                            0.5873179542866175, 0.7699026741943047,
                                            0.9041172563704749, 0.9815606342467193};
constexpr std::array<double, 6> kGaussWeight = {0.2491470458134028, 0.2334925365383548,
                                                0.2031674267230659, 0.1600783285433462,
                                                0.1069393259953184, 0.0471753363865118};

// Cut normal of sd 1, t in units of 1/sd.
Complex cut_transform(double c, double edge, Complex s) {
    if (s.real() < 0.0) return std::exp(-2.0 * c * s) * cut_transform(c, edge, -s);
    if (c < 1.0 && std::norm(c * s) < 1.0) {
        Complex sum = 0.0;
        double mass = 0.0;
        for (std::size_t i = 0; i < kGaussAt.size(); ++i) {
            const double z = c * kGaussAt[i];
            const double w = kGaussWeight[i] * std::exp(-z * z / 2.0);
            sum += w * std::cosh(z * s);
            mass += w;
        }
        return std::exp(-c * s) * sum / mass;
    }
    const Complex near = erfcx((s - c) / std::numbers::sqrt2);
    if (c * s.real() > 20.0) return edge * near;
    return edge * (near - std::exp(-2.0 * c * s) * erfcx((s + c) / std::numbers::sqrt2));
}

Complex ruled_transform(const Quadrature& rule, Complex u) {
    Complex sum = 0.0;
    for (std::size_t i = 0; i < rule.at.size(); ++i)
        sum += rule.weight[i] * std::exp(-rule.at[i] * u);
    return sum;
}

// The double exponential rule, x = 1 / (1 + exp(-pi sinh v)), takes the end points' powers in its
// stride (H. Takahasi and M. Mori, Publ. RIMS 9, 1974).
std::shared_ptr<const Quadrature> beta_rule(double a, double b, bool mirrored, double reach) {
    auto rule = std::make_shared<Quadrature>();
    const double step = std::min(0.06, 3.0 / (reach + 1.0));
    double mass = 0.0;
    // NOLINTNEXTLINE(clang-analyzer-security.FloatLoopCounter): steps of its own
    for (double v = -4.5; v <= 4.5; v += step) {
        const double g = std::numbers::pi * std::sinh(v);
        const double x = 1.0 / (1.0 + std::exp(-g));
        const double rest = 1.0 / (1.0 + std::exp(g));
        const double w = std::pow(x, a) * std::pow(rest, b) * std::cosh(v);
        if (w < 1e-19) continue;
        rule->at.push_back(mirrored ? rest : x);
        rule->weight.push_back(w);
        mass += w;
    }
    for (double& w : rule->weight)
        w /= mass;
    rule->reach = reach;
    return rule;
}

}  // namespace

Term term_of(const Distribution& law, double scale) {
    const double s = std::abs(scale);
    const double width = s * (law.to - law.from);
    switch (law.kind) {
        case DistributionKind::truncated_normal:
            return {.kind = Term::Kind::truncated_normal,
                    .width = width,
                    .sd = s * law.sd,
                    .cut = law.cut,
                    .edge = std::exp(-law.cut * law.cut / 2.0) /
                            (2.0 * std::erf(law.cut / std::numbers::sqrt2))};
        case DistributionKind::triangular:
            return {.kind = Term::Kind::triangular,
                    .width = width,
                    .rise = s * (scale > 0.0 ? law.mode - law.from : law.to - law.mode)};
        case DistributionKind::beta:
            return {.kind = Term::Kind::tabulated,
                    .width = width,
                    .rule = beta_rule(law.a, law.b, scale < 0.0, 400.0)};
        default:
            return {.kind = Term::Kind::uniform, .width = width};
    }
}

Complex transform(const Term& part, Complex t) {
    switch (part.kind) {
        case Term::Kind::uniform:
            return box_transform(part.width * t);
        case Term::Kind::triangular:
            return tent_transform(part.rise / part.width, part.width * t);
        case Term::Kind::truncated_normal:
            return cut_transform(part.cut, part.edge, part.sd * t);
        case Term::Kind::tabulated:
            break;
    }
    return ruled_transform(*part.rule, part.width * t);
}

int corners(const Term& part) {
    switch (part.kind) {
        case Term::Kind::uniform:
        case Term::Kind::truncated_normal:
            return 2;
        case Term::Kind::triangular:
            return part.rise == 0.0 || part.rise == part.width ? 2 : 3;
        case Term::Kind::tabulated:
            break;
    }
    return 0;
}

double corner_at(const Term& part, int i) {
    if (i == 0) return 0.0;
    return i == 1 && corners(part) == 3 ? part.rise : part.width;
}

Complex corner_transform(const Term& part, int i, Complex t) {
    const double w = part.width;
    if (part.kind == Term::Kind::truncated_normal) {
        const double side = i == 0 ? -part.cut : part.cut;
        const Complex tail = part.edge * erfcx((part.sd * t + side) / std::numbers::sqrt2);
        return i == 0 ? tail : -tail;
    }
    const Complex r = 1.0 / (w * t);
    if (part.kind == Term::Kind::uniform) return i == 0 ? r : -r;
    const double rise = part.rise / w;
    const double fall = 1.0 - rise;
    if (rise == 0.0) return i == 0 ? 2.0 * r * (1.0 - r) : 2.0 * r * r;
    if (fall == 0.0) return i == 0 ? 2.0 * r * r : -2.0 * r * (1.0 + r);
    const std::array<double, 3> weight = {2.0 / rise, -2.0 / (rise * fall), 2.0 / fall};
    return weight[static_cast<std::size_t>(i)] * r * r;
}

double split_from(const Term& part) {
    if (part.kind == Term::Kind::truncated_normal) return (part.cut + 6.0) / part.sd;
    return 8.0 / part.width;
}

double envelope(const Term& part, double tau, double y) {
    const double t = std::hypot(tau, y);
    switch (part.kind) {
        case Term::Kind::uniform:
            return std::min(1.0, 2.0 / (part.width * t));
        case Term::Kind::triangular: {
            const double u = part.width * t;
            const double rise = part.rise / part.width;
            const double slope = 8.0 / (u * u * std::max(rise * (1.0 - rise), 1e-9));
            return std::min({1.0, 4.0 / u, slope});
        }
        case Term::Kind::truncated_normal: {
            const double s = part.sd * y;
            return std::min(1.0, std::exp(-s * s / 2.0) + 2.0 * part.edge / (part.sd * t));
        }
        case Term::Kind::tabulated:
            break;
    }
    return 1.0;
}

}  // namespace trialfit::numerics
