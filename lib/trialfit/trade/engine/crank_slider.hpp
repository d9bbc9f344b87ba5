// SPDX-License-Identifier: MIT
// Crank, rod and piston, exactly. Lengths in mm, angles in degrees of crank.
//
// s(q) = R cos q + sqrt(L^2 - (R sin q - e)^2) is the height of the piston's pin over the crank's
// axis, q counted from the direction in which the piston moves (J. B. Heywood, Internal Combustion
// Engine Fundamentals, eq. 2.6; R. L. Norton, Design of Machinery, ch. 4). The offset e is that of
// the pin's path from the crank's axis, + towards the side to which the crank pin moves just after
// the top; an offset bore and an offset gudgeon pin act alike. All angles of this header count from
// the true top, which an offset shifts from q = 0. Good to some 1e-14 of the stroke and, above the
// last few degrees before the bottom, 1e-12 degrees there and back.
#pragma once

#include <trialfit/trade/result.hpp>

namespace trialfit::trade {

/// A crank that can turn over. Make one with crank_of or crank_of_radius, which see to that.
struct Crank {
    double radius = 0.0;  ///< R; half the stroke where the offset is 0
    double rod = 0.0;     ///< L, between centres
    double offset = 0.0;  ///< e
};

/// The crank of an engine whose piston travels `stroke`. R follows from the travel exactly:
/// R^2 = S^2 (4 (L^2 - e^2) - S^2) / (4 (4 L^2 - S^2)). A reason where a length is not > 0 or the
/// rod is not longer than half the stroke plus |offset|.
[[nodiscard]] Result<Crank> crank_of(double stroke, double rod, double offset = 0.0);

/// The same from the crank's radius.
[[nodiscard]] Result<Crank> crank_of_radius(double radius, double rod, double offset = 0.0);

/// Travel of the piston: sqrt((L+R)^2 - e^2) - sqrt((L-R)^2 - e^2).
[[nodiscard]] double stroke_of(const Crank& crank);
/// Where the top and the bottom lie, as q: asin(e/(L+R)), 180 + asin(e/(L-R)).
[[nodiscard]] double top_q_deg(const Crank& crank);
[[nodiscard]] double bottom_q_deg(const Crank& crank);
/// From the top to the bottom, in the turning direction; 180 where the offset is 0.
[[nodiscard]] double down_stroke_deg(const Crank& crank);

/// How far the piston stands below its top `after_top_deg` later (negative: before the top).
[[nodiscard]] double piston_drop(const Crank& crank, double after_top_deg);

/// On which side of the top a piston height is meant.
enum class StrokeSide { before_top, after_top };

/// Degrees from the top, >= 0, at which the piston stands `drop` below it on the given side.
/// A reason where the drop is negative or beyond the stroke.
[[nodiscard]] Result<double> degrees_from_top(const Crank& crank, double drop, StrokeSide side);

/// Angle whose piston heights before and after the top are equal: half the distance, in degrees,
/// between two readings of one height, 0..180, and the drop at which that is so.
[[nodiscard]] double drop_of_half_span(const Crank& crank, double half_span_deg);

/// Motion at one angle.
struct CrankMotion {
    double drop = 0.0;
    double mm_per_deg = 0.0;         ///< of drop; + going down
    double speed_m_s = 0.0;          ///< of the piston, + going down
    double acceleration_m_s2 = 0.0;  ///< + downwards
    double rod_angle_deg = 0.0;      ///< to the piston's path, + where the crank pin is at + side
    double rod_rate_rad_s = 0.0;
};
[[nodiscard]] CrankMotion crank_motion(const Crank& crank, double after_top_deg, double rpm);

/// Where, after the top, the piston is fastest, and the motion there.
struct FastestPiston {
    double after_top_deg = 0.0;
    CrankMotion motion;
};
[[nodiscard]] FastestPiston fastest_piston(const Crank& crank, double rpm);

}  // namespace trialfit::trade
