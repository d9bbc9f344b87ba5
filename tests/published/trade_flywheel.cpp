// SPDX-License-Identifier: MIT
#include <published/formulas.hpp>

#include <cmath>
#include <numbers>
#include <trialfit/trade/engine/compression.hpp>
#include <trialfit/trade/engine/flywheel.hpp>

using namespace trialfit::trade;
using namespace trialfit::testing;

namespace {

// What a gas gives as it expands, the piston has to give it on the way back.
Figures polytropic(Given& given) {
    constexpr double kDrop = 100.0;
    const double ratio = given("to_cm3") / given("from_cm3");
    const double area_mm2 = 1e3 * given("to_cm3") * (ratio - 1.0) / (ratio * kDrop);
    const Cylinder cylinder =
        value_of(cylinder_of(std::sqrt(4.0 * area_mm2 / std::numbers::pi), kDrop, ratio));
    const Trapped gas{.kpa = given("from_kpa") / std::pow(ratio, given("exponent")),
                      .exponent = given("exponent")};
    return {{"given_up_kj", compression_work_j(cylinder, gas, 0.0) / 1e3}};
}

double inertia_of(Given& given) {
    const double gyration = given("gyration_m");
    return given("mass_kg") * gyration * gyration;
}

// The coefficient is shared out evenly about the mean speed.
Figures fluctuation(Given& given) {
    const double mean = given("rpm");
    const double half =
        coefficient_of_fluctuation(given("energy_j"), inertia_of(given), mean) / 2.0;
    return {{"most_rpm", mean * (1.0 + half)}, {"least_rpm", mean * (1.0 - half)}};
}

// From rest the angle is torque / inertia * t^2 / 2, and the torque's work is all stored.
Figures brought_up(Given& given) {
    const double inertia = inertia_of(given);
    const double torque = given("torque_nm");
    const double seconds = given("seconds");
    const double turns = torque / inertia * seconds * seconds / 2.0 / (2.0 * std::numbers::pi);
    const double energy = work_of_torque_j(torque, turns);
    return {{"energy_kj", energy / 1e3},
            {"rad_s", speed_of_energy_rpm(inertia, energy) * std::numbers::pi / 30.0}};
}

Figures volume(Given& given) {
    const Cylinder cylinder =
        value_of(cylinder_of(given("bore"), given("closing_drop"), given("ratio")));
    return {{"volume_cm3", volume_cm3(cylinder, given("drop"))}};
}

TEST_CASE("flywheels and compression as the books say") {
    check_formulas("trade_flywheel.yaml", {{"polytropic", polytropic},
                                           {"fluctuation", fluctuation},
                                           {"brought up", brought_up},
                                           {"volume", volume}});
}

}  // namespace
