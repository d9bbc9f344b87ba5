// SPDX-License-Identifier: MIT
#include <cmath>
#include <numbers>
#include <trialfit/trade/engine/flywheel.hpp>
#include <trialfit/trade/strength/rotor.hpp>

namespace trialfit::trade {

namespace {

double square_of_speed(double rpm) {
    const double w = radians_per_second(rpm);
    return w * w;
}

}  // namespace

double stored_energy_j(double inertia_kg_m2, double rpm) {
    return inertia_kg_m2 * square_of_speed(rpm) / 2.0;
}

double speed_of_energy_rpm(double inertia_kg_m2, double energy_j) {
    return std::sqrt(2.0 * energy_j / inertia_kg_m2) / radians_per_second(1.0);
}

double inertia_of_energy_kg_m2(double energy_j, double rpm) {
    return 2.0 * energy_j / square_of_speed(rpm);
}

double work_of_torque_j(double torque_nm, double turns) {
    return 2.0 * std::numbers::pi * torque_nm * turns;
}

double inertia_to_keep_kg_m2(double energy_j, double from_rpm, double to_rpm) {
    // The difference of squares as a product, so that speeds close together lose nothing.
    const double one = radians_per_second(from_rpm);
    const double other = radians_per_second(to_rpm);
    return 2.0 * energy_j / ((one - other) * (one + other));
}

double coefficient_of_fluctuation(double energy_j, double inertia_kg_m2, double rpm) {
    return energy_j / (inertia_kg_m2 * square_of_speed(rpm));
}

double rim_speed_m_s(double dia, double rpm) {
    return radians_per_second(rpm) * dia / 2.0 * 1e-3;
}

}  // namespace trialfit::trade
