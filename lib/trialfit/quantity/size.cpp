// SPDX-License-Identifier: MIT
#include <cmath>
#include <limits>
#include <numbers>
#include <trialfit/quantity/size.hpp>

namespace trialfit::quantity {

namespace {

double truncated_normal_sd(double half_width, double k) {
    const double density = std::exp(-k * k / 2.0) / std::sqrt(2.0 * std::numbers::pi);
    const double inside = std::erf(k / std::numbers::sqrt2);
    return half_width / k * std::sqrt(1.0 - 2.0 * k * density / inside);
}

}  // namespace

bool Size::is_unmeasured() const {
    return std::isinf(lower) && std::isinf(upper);
}

double Size::sd() const {
    if (is_unmeasured()) return std::numeric_limits<double>::infinity();
    const double h = half_width();
    switch (spread.shape) {
        case Shape::normal:
            return h / spread.sigmas;
        case Shape::truncated_normal:
            return truncated_normal_sd(h, spread.sigmas);
        case Shape::uniform: {
            const double gauge = h - 3.0 * spread.scatter_sd;
            return std::sqrt(gauge * gauge / 3.0 + spread.scatter_sd * spread.scatter_sd);
        }
        case Shape::triangular:
            return h / std::sqrt(6.0);
        case Shape::exact:
            break;
    }
    return 0.0;
}

Size unmeasured() {
    constexpr double kNone = std::numeric_limits<double>::infinity();
    return {.nominal = std::numeric_limits<double>::quiet_NaN(),
            .lower = -kNone,
            .upper = kNone,
            .spread = {}};
}

Size exact(double length) {
    return {.nominal = length, .lower = length, .upper = length, .spread = {}};
}

Size toleranced(double nominal, double minus, double plus) {
    if (minus == plus) {
        return {
            .nominal = nominal, .lower = nominal + minus, .upper = nominal + plus, .spread = {}};
    }
    return {.nominal = nominal,
            .lower = nominal + minus,
            .upper = nominal + plus,
            .spread = {.shape = Shape::normal}};
}

Size reading(double value, double half_width) {
    if (half_width == 0.0) return exact(value);
    return {.nominal = value,
            .lower = value - half_width,
            .upper = value + half_width,
            .spread = {.shape = Shape::uniform}};
}

Size repeated_reading(double mean, double sample_sd, int n, double gauge_half_width) {
    const double scatter_sd = sample_sd / std::sqrt(static_cast<double>(n));
    Size size = reading(mean, gauge_half_width + 3.0 * scatter_sd);
    size.spread.scatter_sd = scatter_sd;
    return size;
}

}  // namespace trialfit::quantity
