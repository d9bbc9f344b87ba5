// SPDX-License-Identifier: MIT
// What turns, as a store of energy. Inertia in kg m2, energy in J, torque in N m, speed in
// revolutions per minute.
#pragma once

namespace trialfit::trade {

/// I w^2 / 2. Any textbook of mechanics, as all below without another source.
[[nodiscard]] double stored_energy_j(double inertia_kg_m2, double rpm);
/// The speed at which that energy is stored; inertia > 0, energy >= 0.
[[nodiscard]] double speed_of_energy_rpm(double inertia_kg_m2, double energy_j);
/// The inertia that stores that energy at a speed > 0.
[[nodiscard]] double inertia_of_energy_kg_m2(double energy_j, double rpm);
/// What a steady torque does over some turns: 2 pi T n.
[[nodiscard]] double work_of_torque_j(double torque_nm, double turns);

/// The inertia that keeps `to_rpm` of `from_rpm` (greater) while it gives up `energy_j`:
/// 2 E / (w1^2 - w2^2).
[[nodiscard]] double inertia_to_keep_kg_m2(double energy_j, double from_rpm, double to_rpm);

/// Coefficient of fluctuation of speed, (w_most - w_least)/w_mean, where the energy of what turns
/// goes up and down by `energy_j` in all about its mean speed: E / (I w^2). R. S. Khurmi and J. K.
/// Gupta, Theory of Machines, ch. 16; R. L. Norton, Design of Machinery, ch. 11.
[[nodiscard]] double coefficient_of_fluctuation(double energy_j, double inertia_kg_m2, double rpm);

/// Speed of a rim of diameter `dia`, mm.
[[nodiscard]] double rim_speed_m_s(double dia, double rpm);

}  // namespace trialfit::trade
