// SPDX-License-Identifier: MIT
// A hub pressed on a cone: what pushes it home, what torque it then holds, how far it goes.
// Lengths and diameters in mm, forces in N, torques in N mm, pressures in MPa. A taper is the
// diameter's change per length (1 in 5 = 0.2), so tan(half angle) = taper / 2.
// Good to the coefficient of friction, which is seldom known to better than a third; even pressure
// along the cone is assumed, so a cone that bears at one end holds less than stated here.
#pragma once

#include <trialfit/trade/result.hpp>
#include <trialfit/trade/strength/thick_cylinder.hpp>

namespace trialfit::trade {

/// The bearing surface of a cone: mean diameter of the part that touches, its length along the
/// axis.
struct ConeBearing {
    double taper = 0.0;
    double mean_dia = 0.0;
    double length = 0.0;
};

/// Whether friction along the cone resists the axial force (a hub being pushed home: the careful
/// choice) or has let go of it (a clutch already in: the force then stands on sin(half angle)).
enum class Seating { sliding, still };

/// What an axial force does on a cone.
struct ConeGrip {
    double normal_force_n = 0.0;  ///< square to the cone's surface
    double torque_n_mm = 0.0;     ///< at which it slips round
    double pull_off_force_n =
        0.0;  ///< axial, once the force is gone; negative = it comes off alone
    bool self_holding =
        false;  ///< stays on then: friction > taper/2, as in DIN 7190-2 (from memory)
};

/// Normal force N = F / (sin a + mu cos a) sliding, F / sin a still; torque mu N Dm / 2; pull-off
/// N (mu cos a - sin a). The cone's length is not used. R. S. Khurmi and J. K. Gupta, Theory of
/// Machines, ch. 10, cone clutch. A reason where taper or mean_dia is not > 0, or friction or force
/// is negative.
[[nodiscard]] Result<ConeGrip> cone_grip(const ConeBearing& cone, double friction,
                                         double axial_force_n, Seating seating = Seating::sliding);

/// Axial force that makes the cone hold `torque_n_mm`: cone_grip the other way.
/// A reason also where friction is 0.
[[nodiscard]] Result<double> axial_force_for_torque(const ConeBearing& cone, double friction,
                                                    double torque_n_mm,
                                                    Seating seating = Seating::sliding);

/// Mean pressure of a normal force on the cone: N cos a / (pi Dm length).
[[nodiscard]] Result<double> cone_pressure_mpa(const ConeBearing& cone, double normal_force_n);

/// Length along the axis over which `normal_force_n` presses with `pressure_mpa`; the cone's own
/// length is not used. Along the slope it is 1 / cos a times this.
[[nodiscard]] Result<double> cone_length_for(const ConeBearing& cone, double normal_force_n,
                                             double pressure_mpa);

/// The solid parts of the joint, both taken as tubes of the cone's mean diameter.
struct ConeBodies {
    double shaft_bore = 0.0;  ///< 0 = solid
    double hub_od = 0.0;
    Elastic shaft;
    Elastic hub;
};

/// One state of a hub drawn up on its cone.
struct ConePress {
    double draw_up = 0.0;       ///< along the axis, from where both first touch all over
    double interference = 0.0;  ///< on the diameter, draw_up * taper
    double pressure_mpa = 0.0;
    double hub_hoop_mpa = 0.0;  ///< at the hub's bore
    double seat_force_n = 0.0;  ///< axial, to push it there
    double pull_off_force_n = 0.0;
    double torque_n_mm = 0.0;  ///< held
};

/// From the draw-up: interference = draw-up * taper, pressure by Lame (thick_cylinder.hpp), seat
/// force p pi Dm L (tan a + mu), torque mu p pi Dm L Dm / (2 cos a). Linear in the draw-up, hence
/// monotone. Reasons as cone_grip and
/// interference_per_mpa.
[[nodiscard]] Result<ConePress> press_from_draw_up(const ConeBearing& cone,
                                                   const ConeBodies& bodies, double friction,
                                                   double draw_up);

/// The same from the axial force that pushes the hub home (a nut's preload).
[[nodiscard]] Result<ConePress> press_from_force(const ConeBearing& cone, const ConeBodies& bodies,
                                                 double friction, double axial_force_n);

/// The same from the torque that is to be held. A reason also where friction is 0.
[[nodiscard]] Result<ConePress> press_for_torque(const ConeBearing& cone, const ConeBodies& bodies,
                                                 double friction, double torque_n_mm);

/// Face of a cone worn in by slipping, where pressure times diameter is the same all over: the
/// greatest pressure is at the small end.
struct WornCone {
    double small_dia = 0.0;
    double large_dia = 0.0;
    double taper = 0.0;
};

/// The ends of a cone face of slant width `width` about `mean_dia`.
[[nodiscard]] WornCone cone_ends(double mean_dia, double taper, double width);

/// What a worn cone does: axial force pi p d (D - d) / 2 and torque mu F (D + d) / (4 sin a) of a
/// worn cone whose small end has `greatest_mpa`; Khurmi and Gupta, Theory of Machines, ch. 10,
/// uniform wear. A reason where small_dia >= large_dia, taper is not > 0, or friction or pressure
/// is negative.
struct WornGrip {
    double axial_force_n = 0.0;
    double torque_n_mm = 0.0;
    double width = 0.0;  ///< along the slope, (D - d) / (2 sin a)
};
[[nodiscard]] Result<WornGrip> worn_cone_grip(const WornCone& cone, double friction,
                                              double greatest_mpa);

}  // namespace trialfit::trade
