// SPDX-License-Identifier: MIT
#pragma once

#include <trialfit/trade/thread/thread.hpp>

namespace trialfit::trade {

/// Diameters and heights of the 60 degree profile that metric and unified threads share, mm,
/// unrounded (ISO 68-1:1998, ISO 724:1993; ASME B1.1-2003 section 3). Three minor diameters live
/// here and none of them is a limit: see thread_limits.hpp for those.
struct BasicProfile {
    double triangle_mm = 0.0;       ///< H = sqrt(3)/2 P, height of the sharp triangle
    double pitch_mm = 0.0;          ///< d2 = D2 = d - 3/4 H, the pitch diameter
    double minor_mm = 0.0;          ///< d1 = D1 = d - 5/4 H
    double root_mm = 0.0;           ///< d3 = d - 17/12 H, root of the bolt rounded H/6 up
    double engaged_depth_mm = 0.0;  ///< H1 = 5/8 H
    double bolt_depth_mm = 0.0;     ///< h3 = 17/24 H
};
/// d > 0, P > 0, both mm.
[[nodiscard]] BasicProfile basic_profile(double d_mm, double pitch_mm);
[[nodiscard]] BasicProfile basic_profile(const ThreadForm& of);

/// Tensile stress area, mm2. Metric: As = pi/4 ((d2 + d3)/2)^2 (ISO 898-1:2013, 9.1.6.1).
/// Unified: At = pi/4 (D - 0.9743/n)^2 (ASME B1.1-2003, appendix B).
[[nodiscard]] double stress_area_mm2(const ThreadForm& of);

/// Area of the core, mm2. Metric: pi/4 d3^2. Unified: section at the minor diameter,
/// pi/4 (D - 3/2 H)^2 (ASME B1.1-2003, appendix B).
[[nodiscard]] double core_area_mm2(const ThreadForm& of);

/// Reference minor diameter of a UNR external thread, mm, as ASME B1.1 tables print it: D1 less
/// H/8, each rounded to four decimals of an inch first, so that 5/8-18 gives 0.5589 in and not
/// 0.5588. Unified threads only.
[[nodiscard]] double unr_minor_mm(const ThreadForm& of);

}  // namespace trialfit::trade
