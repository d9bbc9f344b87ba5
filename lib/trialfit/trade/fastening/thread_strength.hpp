// SPDX-License-Identifier: MIT
#pragma once

#include <trialfit/trade/result.hpp>
#include <trialfit/trade/thread/limits.hpp>
#include <trialfit/trade/thread/thread.hpp>

// Stripping of engaged threads: FED-STD-H28/2B, the same as ASME B1.1 appendix B, with the
// diameters at least material: the bolt's least major and pitch, the nut's greatest minor and pitch
// diameter, as the tables round them.
namespace trialfit::trade {

/// Shear areas of the engaged thread for each millimetre of engagement, mm2/mm.
/// With n = 1/P: bolt pi n K (1/(2n) + (E - K)/sqrt(3)), K = greatest minor of the nut, E = least
/// pitch diameter of the bolt; nut pi n D (1/(2n) + (D - E')/sqrt(3)), D = least major of the bolt,
/// E' = greatest pitch diameter of the nut.
struct StripAreas {
    double bolt_mm2_per_mm = 0.0;
    double nut_mm2_per_mm = 0.0;
};
/// A reason where a limit that the formula needs is not set (a bolt's limits given as the nut's).
[[nodiscard]] Result<StripAreas> strip_areas(const ThreadLimits& bolt, const ThreadLimits& nut,
                                             double pitch_mm);
/// The same for a designation: its own class for its side, the usual class for the other.
[[nodiscard]] Result<StripAreas> strip_areas(const ThreadForm& form);

/// Engagement that develops the bolt's full tensile strength.
struct EngagementNeeded {
    double equal_strength_mm =
        0.0;                      ///< Le = 2 At / (bolt strip area per mm): nut as strong as bolt
    double strength_ratio = 0.0;  ///< J = bolt strip area * Rm / (nut strip area * nut's Rm)
    double needed_mm = 0.0;       ///< Q = J Le where J > 1 (the nut strips first), else Le
};
/// Tensile strengths in MPa (only their ratio counts), > 0. Le takes the thread to shear at half of
/// the tensile strength, as FED-STD-H28/2B does.
[[nodiscard]] EngagementNeeded engagement_needed(double stress_area_mm2, const StripAreas& areas,
                                                 double bolt_tensile_MPa, double nut_tensile_MPa);

/// Load, N, that strips `engaged_mm` of a thread whose strip area is `area_mm2_per_mm` in a metal
/// of that shear strength.
[[nodiscard]] double strip_load_N(double area_mm2_per_mm, double engaged_mm, double shear_MPa);

/// Engagement, mm, at which a thread just holds a load: load / (area per mm * shear strength).
[[nodiscard]] double engagement_for_load_mm(double load_N, double area_mm2_per_mm,
                                            double shear_MPa);

}  // namespace trialfit::trade
