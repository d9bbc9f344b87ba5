// SPDX-License-Identifier: MIT
#include <algorithm>
#include <numbers>
#include <trialfit/trade/fastening/thread_strength.hpp>

namespace trialfit::trade {

Result<StripAreas> strip_areas(const ThreadLimits& bolt, const ThreadLimits& nut, double pitch_mm) {
    if (bolt.tolerance.internal || !nut.tolerance.internal || !bolt.major.min_mm ||
        !bolt.pitch.min_mm || !nut.minor.max_mm || !nut.pitch.max_mm)
        return Reason{"strip areas need the limits of a bolt and those of its nut, in this order"};
    constexpr double kFlank = std::numbers::inv_sqrt3;
    const double per_mm = 1.0 / pitch_mm;
    const double half_pitch = pitch_mm / 2.0;
    const double nut_minor = *nut.minor.max_mm;
    const double bolt_major = *bolt.major.min_mm;
    return StripAreas{std::numbers::pi * per_mm * nut_minor *
                          (half_pitch + kFlank * (*bolt.pitch.min_mm - nut_minor)),
                      std::numbers::pi * per_mm * bolt_major *
                          (half_pitch + kFlank * (bolt_major - *nut.pitch.max_mm))};
}

Result<StripAreas> strip_areas(const ThreadForm& form) {
    const ThreadClass own = form.tolerance.value_or(usual_class(form, false));
    const ThreadClass other = usual_class(form, !own.internal);
    const auto bolt = thread_limits(form, own.internal ? other : own);
    if (!bolt) return bolt.why();
    const auto nut = thread_limits(form, own.internal ? own : other);
    if (!nut) return nut.why();
    return strip_areas(*bolt, *nut, form.pitch_mm);
}

EngagementNeeded engagement_needed(double stress_area_mm2, const StripAreas& areas,
                                   double bolt_tensile_MPa, double nut_tensile_MPa) {
    EngagementNeeded answer;
    answer.equal_strength_mm = 2.0 * stress_area_mm2 / areas.bolt_mm2_per_mm;
    answer.strength_ratio =
        areas.bolt_mm2_per_mm * bolt_tensile_MPa / (areas.nut_mm2_per_mm * nut_tensile_MPa);
    answer.needed_mm = answer.equal_strength_mm * std::max(1.0, answer.strength_ratio);
    return answer;
}

double strip_load_N(double area_mm2_per_mm, double engaged_mm, double shear_MPa) {
    return area_mm2_per_mm * engaged_mm * shear_MPa;
}

double engagement_for_load_mm(double load_N, double area_mm2_per_mm, double shear_MPa) {
    return load_N / (area_mm2_per_mm * shear_MPa);
}

}  // namespace trialfit::trade
