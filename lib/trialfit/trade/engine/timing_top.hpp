// SPDX-License-Identifier: MIT
// Finding top dead centre, and how well each way finds it. Angles in degrees, lengths in mm.
#pragma once

#include <trialfit/trade/engine/crank_slider.hpp>

namespace trialfit::trade {

/// Top found from a degree wheel's readings at one piston height on both sides of it.
struct TopByStops {
    double top_deg = 0.0;  ///< on the wheel, the true top
    double drop = 0.0;     ///< piston height at which the stop holds
    double middle_deg =
        0.0;                 ///< plain middle of the readings; off the top where the bore is offset
    double worst_deg = 0.0;  ///< half-width: wheel and stop both at their limits
    double sd_deg = 0.0;     ///< the four errors independent and uniform
};

/// The piston is turned against a stop (or to one gauge reading) from both sides. Readings count
/// up in the turning direction: `before_deg` < `after_deg` < before + 360. `wheel_half_width_deg`
/// is the limit of one wheel reading, `stop_half_width` that of the height at which the piston
/// comes to rest each time. The top is the middle, less the lean that an offset gives it. The
/// height errors are carried through the exact curve, not its slope. A reason where the readings
/// are not in order or a half-width is negative.
[[nodiscard]] Result<TopByStops> top_by_stops(const Crank& crank, double before_deg,
                                              double after_deg, double wheel_half_width_deg,
                                              double stop_half_width);

/// How far from the true top the crank may stand while a gauge good to +-`gauge_half_width` shows
/// no change from its highest: the top by dwell, or "by feel".
struct TopByDwell {
    double before_deg = 0.0;  ///< >= 0
    double after_deg = 0.0;   ///< >= 0
    double sd_deg = 0.0;      ///< anywhere between, evenly
};
/// A reason where the half-width is negative or beyond the stroke.
[[nodiscard]] Result<TopByDwell> top_by_dwell(const Crank& crank, double gauge_half_width);

}  // namespace trialfit::trade
