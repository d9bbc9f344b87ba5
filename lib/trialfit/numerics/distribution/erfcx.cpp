// SPDX-License-Identifier: MIT
#include <cmath>
#include <numbers>
#include <trialfit/numerics/distribution/erfcx.hpp>

namespace trialfit::numerics {

namespace {

using Complex = std::complex<double>;

ErfcxRules worked_out_rules() {
    ErfcxRules rules;
    rules.step = std::sqrt(std::numbers::pi / static_cast<double>(ErfcxRules::kNodes));
    for (std::size_t k = 0; k < ErfcxRules::kNodes; ++k) {
        for (std::size_t rule = 0; rule < 2; ++rule) {
            const double at = (static_cast<double>(k) + (rule == 0 ? 0.5 : 1.0)) * rules.step;
            rules.square[k][rule] = at * at;
            rules.weight[k][rule] = std::exp(-at * at);
        }
    }
    return rules;
}

// sum of weight / (square + z^2): in terms of w(iz) the poles t^2 - (iz)^2.
Complex poles(std::size_t rule, Complex z2) {
    const ErfcxRules& rules = erfcx_rules();
    const double y2 = z2.imag() * z2.imag();
    double re = 0.0;
    double im = 0.0;
    for (std::size_t k = 0; k < ErfcxRules::kNodes; ++k) {
        const double d = rules.square[k][rule] + z2.real();
        const double scaled = rules.weight[k][rule] / (d * d + y2);
        re += scaled * d;
        im -= scaled * z2.imag();
    }
    return {re, im};
}

Complex asymptotic(Complex z) {
    const Complex r = 1.0 / (2.0 * z * z);
    const Complex series = 1.0 - r * (1.0 - 3.0 * r * (1.0 - 5.0 * r * (1.0 - 7.0 * r)));
    return series / (z * std::sqrt(std::numbers::pi));
}

// For z = x + iy with x >= 0, y >= 0: the rule whose nodes keep off the pole, and the residue where
// the pole lies within the strip that the rule sums over.
Complex right_half(Complex z) {
    if (std::norm(z) > 900.0) return asymptotic(z);
    const double h = erfcx_rules().step;
    const Complex z2 = z * z;
    const Complex scale = 2.0 * h / std::numbers::pi * z;
    const double x = z.real();
    const double y = std::abs(z.imag());
    if (x >= std::fmax(y, std::numbers::pi / h)) return scale * poles(0, z2);
    const Complex turn = std::exp(-2.0 * std::numbers::pi / h * z);
    const double place = y / h - std::floor(y / h);
    if (y > x && place >= 0.25 && place <= 0.75) {
        return h / (std::numbers::pi * z) + scale * poles(1, z2) -
               2.0 * std::exp(z2) * turn / (1.0 - turn);
    }
    return scale * poles(0, z2) + 2.0 * std::exp(z2) * turn / (1.0 + turn);
}

}  // namespace

const ErfcxRules& erfcx_rules() {
    static const ErfcxRules rules = worked_out_rules();
    return rules;
}

Complex erfcx(Complex z) {
    if (z.real() >= 0.0) return right_half(z);
    return 2.0 * std::exp(z * z) - right_half(-z);
}

}  // namespace trialfit::numerics
