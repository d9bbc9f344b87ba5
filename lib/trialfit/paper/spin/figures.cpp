// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <trialfit/paper/spin/parts.hpp>
#include <trialfit/paper/text/figures.hpp>

namespace trialfit::paper {

namespace {

constexpr double kKgCm2 = 1e4;

// Four figures, or what lies before the point.
int decimals_of(double value) {
    const double size = std::abs(finite(value));
    if (size >= 100.0) return 0;
    if (size >= 10.0) return 1;
    return size >= 1.0 ? 2 : 3;
}

// A decimal more than the trade prints, so that three figures are always told.
int inertia_decimals(double kg_cm2) {
    return std::abs(kg_cm2) < 0.1 ? 4 : std::min(decimals_of(kg_cm2) + 1, 3);
}

}  // namespace

std::string kg_cm2(double inertia_kg_m2) {
    const double value = finite(inertia_kg_m2) * kKgCm2;
    return fixed(value, inertia_decimals(value));
}

std::string kg_cm2_enough(double inertia_kg_m2) {
    const double value = finite(inertia_kg_m2) * kKgCm2;
    return enough(value, inertia_decimals(value));
}

std::string kg_cm2_at_most(double inertia_kg_m2) {
    const double value = finite(inertia_kg_m2) * kKgCm2;
    return at_most(value, inertia_decimals(value));
}

std::string joule(double energy_j) {
    return at_most(energy_j, decimals_of(energy_j));
}

std::string joule_enough(double energy_j) {
    return enough(energy_j, decimals_of(energy_j));
}

std::string rpm_left(double rpm) {
    return at_most(rpm, 0);
}

std::string rpm_needed(double rpm) {
    return enough(rpm, 0);
}

std::string both_ends(const std::string& least, const std::string& greatest) {
    return least == greatest ? least : fmt::format("{} to {}", least, greatest);
}

std::string_view word(spin::StarterKind kind) {
    switch (kind) {
        case spin::StarterKind::torque:
            return "torque";
        case spin::StarterKind::speed:
            return "speed";
        case spin::StarterKind::energy:
            break;
    }
    return "energy";
}

}  // namespace trialfit::paper
