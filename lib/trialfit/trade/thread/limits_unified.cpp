// SPDX-License-Identifier: MIT
#include <algorithm>
#include <array>
#include <cmath>
#include <string>
#include <trialfit/quantity/units.hpp>
#include <trialfit/trade/reference/written.hpp>
#include <trialfit/trade/thread/limits_unified.hpp>
#include <trialfit/trade/thread/profile.hpp>

// ASME B1.1-2003, section 5; all in inches until the answer.
namespace trialfit::trade {

namespace {

using quantity::kMmPerInch;

double to_decimals(double inches, int decimals) {
    const double scale = std::pow(10.0, decimals);
    return std::round(inches * scale) / scale;
}

double four(double inches) {
    return to_decimals(inches, 4);
}

struct Inches {
    double d = 0.0;
    double p = 0.0;
    double n = 0.0;
    double pitch_diameter = 0.0;  ///< rounded to four decimals, as printed
    double minor = 0.0;           ///< D1, unrounded
};

Inches inches_of(const ThreadForm& form) {
    const BasicProfile basic = basic_profile(form);
    return {form.d_mm / kMmPerInch, 1.0 / form.per_inch, form.per_inch,
            four(basic.pitch_mm / kMmPerInch), basic.minor_mm / kMmPerInch};
}

double two_thirds_power(double x) {
    return std::cbrt(x * x);
}

double pitch_tolerance_2a(const ThreadForm& form, const Inches& in) {
    const bool engages_d = form.series == ThreadSeries::unc || form.series == ThreadSeries::unf ||
                           (form.series == ThreadSeries::un && in.n <= 8.0);
    const double engagement = engages_d ? in.d : 9.0 * in.p;
    // Six decimals before any factor: 1/4-20 UNC-2B prints 0.2224 only so.
    return to_decimals(
        0.0015 * std::cbrt(in.d) + 0.0015 * std::sqrt(engagement) + 0.015 * two_thirds_power(in.p),
        6);
}

ThreadLimits bolt(const ThreadForm& form, const ThreadClass& of, const Inches& in) {
    constexpr std::array kPitchFactor{1.5, 1.0, 0.75};
    const double pitch_2a = pitch_tolerance_2a(form, in);
    const double allowance = of.unified == 3 ? 0.0 : four(0.3 * pitch_2a);
    const auto at = static_cast<std::size_t>(of.unified - 1);
    const double major_tolerance = four((of.unified == 1 ? 0.09 : 0.06) * two_thirds_power(in.p));
    const double major_max = four(in.d) - allowance;
    const double pitch_max = in.pitch_diameter - allowance;
    ThreadLimits limits;
    limits.tolerance = of;
    limits.major = {four(major_max - major_tolerance) * kMmPerInch, four(major_max) * kMmPerInch};
    limits.pitch = {four(pitch_max - four(kPitchFactor.at(at) * pitch_2a)) * kMmPerInch,
                    four(pitch_max) * kMmPerInch};
    limits.minor = {{}, four(unr_minor_mm(form) / kMmPerInch - allowance) * kMmPerInch};
    return limits;
}

// Tolerance of the internal minor diameter.
double minor_tolerance(const Inches& in, int unified) {
    const double by_pitch = 0.25 * in.p - 0.4 * in.p * in.p;
    const double small = 0.05 * two_thirds_power(in.p) + 0.03 * in.p / in.d - 0.002;
    const double greatest = 0.394 * in.p;
    if (unified == 3) {
        const double least = in.n >= 13.0 ? 0.23 * in.p - 1.5 * in.p * in.p : 0.12 * in.p;
        return std::min(std::max(small, least), greatest);
    }
    if (in.d < 0.25) return std::min(std::max(small, by_pitch), greatest);
    return in.n < 4.0 ? 0.15 * in.p : by_pitch;
}

ThreadLimits nut(const ThreadForm& form, const ThreadClass& of, const Inches& in) {
    constexpr std::array kPitchFactor{1.95, 1.3, 0.975};
    const auto at = static_cast<std::size_t>(of.unified - 1);
    const double pitch_tolerance = four(kPitchFactor.at(at) * pitch_tolerance_2a(form, in));
    // Three decimals from #6 up; below, and the greatest of 3B, four.
    constexpr double kNumberSix_in = 0.138;
    const bool coarse_print = in.d >= kNumberSix_in - 1e-9;
    const double minor_max = four(in.minor + minor_tolerance(in, of.unified));
    ThreadLimits limits;
    limits.tolerance = of;
    limits.major = {four(in.d) * kMmPerInch, {}};
    limits.pitch = {in.pitch_diameter * kMmPerInch,
                    four(in.pitch_diameter + pitch_tolerance) * kMmPerInch};
    const bool max_to_three = coarse_print && of.unified != 3;
    // By way of whole ten-thousandths, so that #10-24's 0.1555 rounds up and not as it falls.
    const double max_in =
        max_to_three ? std::round(std::round(minor_max * 1e4) / 10.0) / 1e3 : minor_max;
    limits.minor = {to_decimals(in.minor, coarse_print ? 3 : 4) * kMmPerInch, max_in * kMmPerInch};
    return limits;
}

}  // namespace

Result<ThreadLimits> unified_limits(const ThreadForm& form, const ThreadClass& of) {
    if (of.unified < 1 || of.unified > 3 || form.per_inch <= 0.0)
        return Reason{"'" + form.written +
                      "': unified threads have classes 1A to 3A and 1B to 3B; write 2A or 2B"};
    const Inches in = inches_of(form);
    // #0-80 to 6 inches: the ends of its series (from memory). Formulas go wild far outside.
    constexpr double kLeast_in = 0.06;
    constexpr double kMost_in = 6.0;
    constexpr double kFinest = 80.0;
    constexpr double kRounding = 1e-9;
    if (in.d < kLeast_in - kRounding || in.d > kMost_in + kRounding || in.n > kFinest + kRounding)
        return Reason{
            "ASME B1.1 covers diameters 0.06 to 6 inches and up to 80 threads per inch, "
            "not " +
            shown(in.d) + " inches with " + shown(in.n) + " threads; state the limits themselves"};
    return of.internal ? nut(form, of, in) : bolt(form, of, in);
}

}  // namespace trialfit::trade
