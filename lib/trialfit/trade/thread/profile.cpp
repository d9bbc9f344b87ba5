// SPDX-License-Identifier: MIT
#include <cmath>
#include <numbers>
#include <trialfit/quantity/units.hpp>
#include <trialfit/trade/thread/profile.hpp>

namespace trialfit::trade {

namespace {

using quantity::kMmPerInch;

double disc(double diameter) {
    return std::numbers::pi / 4.0 * diameter * diameter;
}

double to_four_decimals(double inches) {
    return std::round(inches * 1e4) / 1e4;
}

}  // namespace

BasicProfile basic_profile(double d_mm, double pitch_mm) {
    const double h = std::numbers::sqrt3 / 2.0 * pitch_mm;
    return {h,
            d_mm - 3.0 / 4.0 * h,
            d_mm - 5.0 / 4.0 * h,
            d_mm - 17.0 / 12.0 * h,
            5.0 / 8.0 * h,
            17.0 / 24.0 * h};
}

BasicProfile basic_profile(const ThreadForm& of) {
    return basic_profile(of.d_mm, of.pitch_mm);
}

double stress_area_mm2(const ThreadForm& of) {
    if (!is_metric(of.series)) return disc(of.d_mm - 0.9743 * of.pitch_mm);
    const BasicProfile profile = basic_profile(of);
    return disc((profile.pitch_mm + profile.root_mm) / 2.0);
}

double core_area_mm2(const ThreadForm& of) {
    const BasicProfile profile = basic_profile(of);
    if (is_metric(of.series)) return disc(profile.root_mm);
    return disc(of.d_mm - 3.0 / 2.0 * profile.triangle_mm);
}

double unr_minor_mm(const ThreadForm& of) {
    const BasicProfile profile = basic_profile(of);
    const double minor_in = to_four_decimals(profile.minor_mm / kMmPerInch);
    const double eighth_in = to_four_decimals(profile.triangle_mm / 8.0 / kMmPerInch);
    return (minor_in - eighth_in) * kMmPerInch;
}

}  // namespace trialfit::trade
