// SPDX-License-Identifier: MIT
// A turning ring: what its own spinning does to it, what it weighs, how hard it is to spin up.
// Lengths and diameters in mm, density in kg/m3, speed in revolutions per minute, stress in MPa,
// inertia in kg m2. Stresses are for a uniform flat ring, elastic, in plane stress: for
// information; holes, webs, magnets and castings burst at other speeds.
#pragma once

#include <trialfit/trade/result.hpp>

namespace trialfit::trade {

/// A flat ring of one material. bore 0 is a solid disc.
struct SpinningRing {
    double bore = 0.0;
    double od = 0.0;
    double density_kg_m3 = 0.0;
    double poisson = 0.0;
};

/// Stresses of a ring at one speed.
struct RingStress {
    double hoop_bore_mpa = 0.0;  ///< the greatest of all; at the centre of a solid disc
    double hoop_rim_mpa = 0.0;
    double radial_most_mpa = 0.0;
    double radial_most_dia = 0.0;  ///< where it is: sqrt(bore od)
    double mean_hoop_mpa = 0.0;    ///< over the section; equated to the strength = burst estimate
    double rim_speed_m_s = 0.0;
};

/// Radians per second of revolutions per minute.
[[nodiscard]] double radians_per_second(double rpm);

/// Hoop at the bore rho w^2/4 [(3+nu) ro^2 + (1-nu) ri^2], at the rim with ri and ro exchanged,
/// radial most rho w^2 (3+nu)/8 (ro-ri)^2 (R. G. Budynas and J. K. Nisbett, Shigley's Mechanical
/// Engineering Design, 8th ed., eq. 3-55); a solid disc has half the hoop of a pin-holed one,
/// (3+nu)/8 rho w^2 ro^2 at its centre. Mean hoop rho w^2 (ri^2 + ri ro + ro^2)/3, by equilibrium
/// of one half. A reason where od is not greater than the bore, or density, Poisson's ratio or
/// speed is negative.
[[nodiscard]] Result<RingStress> spinning_ring(const SpinningRing& ring, double rpm);

/// Speed, rpm, at which the bore of the ring first yields at `yield_mpa`.
[[nodiscard]] Result<double> first_yield_rpm(const SpinningRing& ring, double yield_mpa);

/// Speed, rpm, at which the mean hoop stress is `strength_mpa`: the whole section yields, the usual
/// burst estimate. A. P. Boresi and R. J. Schmidt, Advanced Mechanics of Materials, ex. 11.8 p.
/// 415.
[[nodiscard]] Result<double> fully_plastic_rpm(const SpinningRing& ring, double strength_mpa);

/// Rim speed, m/s, at which a thin rim has `stress_mpa`: sqrt(stress/density). Khurmi and Gupta,
/// Theory of Machines, ch. 16. A reason where density is not > 0 or stress is negative.
[[nodiscard]] Result<double> thin_rim_speed_m_s(double density_kg_m3, double stress_mpa);

/// Diameter, mm, that has the rim speed at `rpm` (> 0).
[[nodiscard]] double diameter_of_rim_speed(double speed_m_s, double rpm);

/// Mass and moment of inertia about the axis.
struct RingInertia {
    double mass_kg = 0.0;
    double inertia_kg_m2 = 0.0;
};

/// A ring from its sizes: m = rho pi/4 (od^2 - bore^2) length, I = m (od^2 + bore^2)/8. Any
/// textbook of mechanics. A reason where the bore is not smaller than od, or length or density is
/// negative.
[[nodiscard]] Result<RingInertia> ring_inertia(double bore, double od, double length,
                                               double density_kg_m3);

/// The same from the mass on the scales, spread evenly between bore and od.
[[nodiscard]] Result<RingInertia> weighed_ring_inertia(double bore, double od, double mass_kg);

/// Both together, on one axis.
[[nodiscard]] RingInertia operator+(const RingInertia& one, const RingInertia& other);

/// The same body about a parallel axis `distance` mm from its own (Steiner).
[[nodiscard]] RingInertia about_axis_at(const RingInertia& body, double distance);

/// Torque, N mm, that an angular acceleration (rad/s2) of the body asks of its seat: I alpha.
[[nodiscard]] double torque_for_acceleration_n_mm(const RingInertia& body, double rad_s2);

/// Bringing a body at rest up to speed through a slipping joint.
struct SpinUp {
    double time_s = 0.0;
    double slip_heat_j = 0.0;  ///< as much again as the body takes up: I w^2 / 2
};
/// At a steady torque (> 0). Khurmi and Gupta, Theory of Machines, ex. 10.34.
[[nodiscard]] SpinUp spin_up(const RingInertia& body, double torque_n_mm, double rpm);

}  // namespace trialfit::trade
