// SPDX-License-Identifier: MIT
#pragma once

#include <string_view>
#include <trialfit/trade/result.hpp>

// Tapers and what a change of diameter does along them. A taper T is diameter per axial length,
// without unit: 1 in 5 is 0.2. Formulas are geometry of the right triangle with legs T/2 and 1
// (ISO 3040:2016, clause 3: rate of taper C = (D - d)/L = 2 tan(alpha/2)) unless a source is named.
namespace trialfit::trade {

/// Steepest taper taken for one: 2 is a cone of 90 degrees included.
inline constexpr double kSteepestTaper = 2.0;

/// Reads a taper as a job writes it and gives diameter per length: `1 in 5`, `1:4.92`, `0.2`,
/// `1.5 in per ft` (also `3/4 in/ft`, `1 1/2 in per ft`: inches of diameter per foot),
/// `14 to 20 over 29` (the two diameters, in either order, over the length between them),
/// `11.42 deg included`, `5.71 deg half`. A plain number may be negative, nothing else.
/// A reason where it cannot be read, is 0, or is steeper than kSteepestTaper.
[[nodiscard]] Result<double> taper(std::string_view written);

/// Diameter per length from two diameters and the length between them (all one unit, length > 0);
/// negative where `end` is the greater.
[[nodiscard]] double taper_of_ends(double start, double end, double length);
/// From the angle between the axis and the side, degrees, |half| < 90.
[[nodiscard]] double taper_of_half_angle_deg(double half_deg);
/// From inches of diameter per foot: T = tpf / 12.
[[nodiscard]] double taper_of_per_foot(double inches_per_foot);
/// Inches of diameter per foot of a cone that touches two discs whose centres are `distance` apart,
/// square to the line of centres: K = (D - d)/(2 C), tpf = 24 K / sqrt(1 - K^2) (Machinery's
/// Handbook, 31st ed., p. 701). All in one unit, distance > (large - small)/2.
[[nodiscard]] double per_foot_of_discs(double large, double small, double distance);
/// Distance of the two discs' centres for a given taper: the inverse of per_foot_of_discs.
[[nodiscard]] double disc_distance(double large, double small, double inches_per_foot);

/// What `table cone` shows of a taper. Angles in degrees, signed as the taper.
struct TaperFigures {
    double taper = 0.0;                  ///< diameter per length
    double one_in = 0.0;                 ///< n of 1 in n
    double half_deg = 0.0;               ///< axis to side
    double included_deg = 0.0;           ///< side to side
    double per_foot_in = 0.0;            ///< inches of diameter per foot
    double travel_per_diameter = 0.0;    ///< axial travel for a unit change of diameter, 1/T
    double self_holding_friction = 0.0;  ///< tan(half): holds by itself where friction is greater
};
/// `taper` != 0.
[[nodiscard]] TaperFigures taper_figures(double taper);

/// Axial travel, signed, that a change of diameter makes: change / T. Lapping that takes d off both
/// parts together moves the hub inboard by this much.
[[nodiscard]] double travel_for_diameter(double taper, double diameter_change);
/// Change of diameter (or diametral interference) that axial travel makes: travel * T.
[[nodiscard]] double diameter_for_travel(double taper, double travel);
/// Gap all round, on the radius, of a hub that stands `stand_off` off its cone: stand_off * T / 2.
[[nodiscard]] double radial_gap_at(double taper, double stand_off);
/// How far a key that is higher than its room by `excess` holds the hub off, where the slot floors
/// follow the cone: 2 excess / T. (With floors parallel to the axis there is no gradual stand-off.)
[[nodiscard]] double key_stand_off(double taper, double excess);
/// Difference of diameter over `contact_length` between a cone and one whose half angle is
/// `half_error_deg` more: 2 L (tan(half + error) - tan(half)). In the unit of the length.
[[nodiscard]] double diameter_for_half_angle_error(double taper, double half_error_deg,
                                                   double contact_length);

}  // namespace trialfit::trade
