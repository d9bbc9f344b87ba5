// SPDX-License-Identifier: MIT
// A firing point as piston height, as gauge reading and as crank angle, with what is not known
// about the engine and the gauge carried along. Lengths in mm, angles in degrees from the true top.
#pragma once

#include <array>
#include <string_view>
#include <trialfit/quantity/size.hpp>
#include <trialfit/trade/engine/crank_slider.hpp>

namespace trialfit::trade {

/// What is measured of an engine. The tilt is that of the plug hole, and with it of the gauge,
/// against the piston's path, degrees.
struct EngineSizes {
    quantity::Size stroke;
    quantity::Size rod;
    quantity::Size offset;
    quantity::Size tilt_deg;
};

/// What a gauge tilted by `tilt_deg` reads for a piston `drop` below its top: drop / cos(tilt).
/// Plain geometry. A reason where the drop is negative or |tilt| is 90 degrees or more.
[[nodiscard]] Result<double> gauge_reading(double drop, double tilt_deg);
/// The other way: reading * cos(tilt). Same reasons.
[[nodiscard]] Result<double> drop_of_reading(double reading, double tilt_deg);

/// What one size does to the angle: half the difference between the angles at its two limits, the
/// other sizes in the middle, degrees, signed (+ = more from the top as the size grows).
struct AngleShare {
    std::string_view of;
    double half_width_deg = 0.0;
    double sd_deg = 0.0;
};

/// A firing point. Nominal figures are at the sizes' nominals.
struct TimingPoint {
    double degrees = 0.0;     ///< from the top, >= 0, on the side asked for
    double middle_deg = 0.0;  ///< the same with every size in the middle of its limits
    double drop = 0.0;
    double gauge_reading = 0.0;
    double mm_per_deg = 0.0;  ///< of drop, here: small near the top, where angles are hard to find
    double worst_least_deg = 0.0;  ///< over all limits at once
    double worst_most_deg = 0.0;
    double rss_deg = 0.0;  ///< half-width about middle_deg: root of the sum of the shares' squares
    double sd_deg = 0.0;
    std::array<AngleShare, 5> shares;  ///< reading, stroke, rod, offset, tilt
};

/// The point at which a gauge in the plug hole reads `reading` below the top. The worst case is
/// taken over every combination of least, middle and greatest of the five sizes, without
/// linearising: near the top a line would mislead. A reading of less than nothing counts as 0, one
/// beyond the bottom as the bottom, except for the nominal. The nominal itself is no part of the
/// range, since its sizes may lie outside their limits ("20 -0.1 -0.3").
/// A reason where the nominal or any combination of the limits is no engine, or the nominal reading
/// is beyond the stroke.
[[nodiscard]] Result<TimingPoint> timing_at_reading(const EngineSizes& engine,
                                                    const quantity::Size& reading, StrokeSide side);

/// The point `degrees` (0..half a turn) from the top, set by a gauge that is good to
/// +-gauge_half_width: the nominal is exact, the bounds say where the crank may really be.
[[nodiscard]] Result<TimingPoint> timing_at_degrees(const EngineSizes& engine, double degrees,
                                                    double gauge_half_width, StrokeSide side);

}  // namespace trialfit::trade
