// SPDX-License-Identifier: MIT
#include <published/formulas.hpp>

#include <cmath>
#include <numbers>
#include <trialfit/trade/cone/cone_joint.hpp>
#include <trialfit/trade/cone/taper.hpp>
#include <trialfit/trade/strength/rotor.hpp>

using namespace trialfit::trade;
using namespace trialfit::testing;

namespace {

// A cone is given by its ratio 1:n or by its half angle.
double taper_in(Given& given) {
    return given.has("one_in") ? 1.0 / given("one_in") : taper_of_half_angle_deg(given("half_deg"));
}

ConeBearing cone_in(Given& given) {
    return {taper_in(given), given("mean_dia"), given("length", 1.0)};
}

double torque_of_power_n_mm(Given& given) {
    return given("power_w") / radians_per_second(given("rpm")) * 1e3;
}

// Along the slope, as clutch books give the width of a face.
double slope_width(const ConeBearing& cone, double normal_n, double pressure_mpa) {
    return value_of(cone_length_for(cone, normal_n, pressure_mpa)) *
           std::hypot(1.0, cone.taper / 2.0);
}

Figures grip(Given& given) {
    const ConeBearing cone = cone_in(given);
    const double friction = given("friction");
    const double force_n = given("force_n");
    const ConeGrip sliding = value_of(cone_grip(cone, friction, force_n));
    const ConeGrip still = value_of(cone_grip(cone, friction, force_n, Seating::still));
    return {{"torque_n_mm", sliding.torque_n_mm},
            {"torque_n_m", sliding.torque_n_mm / 1e3},
            {"torque_still_n_m", still.torque_n_mm / 1e3},
            {"normal_n", sliding.normal_force_n},
            {"pull_off_n", sliding.pull_off_force_n}};
}

// A clutch that has to carry a power: force to engage, force to hold, width for a pressure.
Figures clutch(Given& given) {
    const ConeBearing cone = cone_in(given);
    const double friction = given("friction");
    const double torque = torque_of_power_n_mm(given);
    const double engage = value_of(axial_force_for_torque(cone, friction, torque));
    const double hold = value_of(axial_force_for_torque(cone, friction, torque, Seating::still));
    const double normal = value_of(cone_grip(cone, friction, engage)).normal_force_n;
    const double width = slope_width(cone, normal, given("pressure_mpa"));
    const WornCone ends = cone_ends(cone.mean_dia, cone.taper, width);
    const WornGrip worn = value_of(worn_cone_grip(ends, friction, given("pressure_mpa")));
    return {{"torque_n_m", torque / 1e3},
            {"normal_n", normal},
            {"engage_n", engage},
            {"hold_n", hold},
            {"width", width},
            {"large_radius", ends.large_dia / 2.0},
            {"small_radius", ends.small_dia / 2.0},
            {"worn_force_n", worn.axial_force_n}};
}

Figures spinning_up(Given& given) {
    const ConeBearing cone = cone_in(given);
    const double torque =
        value_of(cone_grip(cone, given("friction"), given("force_n"), Seating::still)).torque_n_mm;
    const double gyration = given("gyration_radius");
    // A body of that radius of gyration: all its mass at one radius.
    const RingInertia body = about_axis_at(RingInertia{given("mass_kg"), 0.0}, gyration);
    const SpinUp up = spin_up(body, torque, given("rpm"));
    return {{"torque_n_m", torque / 1e3}, {"time_s", up.time_s}, {"heat_j", up.slip_heat_j}};
}

Figures worn(Given& given) {
    const WornCone cone{given("small_dia"), given("large_dia"), taper_in(given)};
    const WornGrip grip = value_of(worn_cone_grip(cone, given("friction"), given("pressure_mpa")));
    return {{"torque_n_mm", grip.torque_n_mm},
            {"torque_asked_n_mm", torque_of_power_n_mm(given)},
            {"width", grip.width}};
}

Figures draw_up(Given& given) {
    const ConeBearing cone = cone_in(given);
    const Elastic steel{207000, 0.292};
    const Elastic aluminium{71700, 0.333};
    const ConeBodies bodies{0.0, given("hub_od"), steel,
                            given.word("hub") == "steel" ? steel : aluminium};
    const ConePress press =
        value_of(press_from_draw_up(cone, bodies, given("friction"), given("draw_up")));
    return {{"interference", press.interference},
            {"pressure_mpa", press.pressure_mpa},
            {"hub_hoop_mpa", press.hub_hoop_mpa},
            {"seat_force_n", press.seat_force_n},
            {"torque_n_mm", press.torque_n_mm}};
}

// Friction at which the cone goes from coming off alone to staying on, by halving.
Figures self_holding(Given& given) {
    const ConeBearing cone{taper_in(given), 20.0, 20.0};
    double slips = 0.0;
    double holds = 1.0;
    for (int i = 0; i < 60; ++i) {
        const double friction = (slips + holds) / 2.0;
        (value_of(cone_grip(cone, friction, 1000.0)).self_holding ? holds : slips) = friction;
    }
    return {{"friction", holds}};
}

TEST_CASE("cones hold what the books say") {
    check_formulas("trade_cone.yaml", {{"grip", grip},
                                       {"clutch", clutch},
                                       {"spinning up", spinning_up},
                                       {"worn cone", worn},
                                       {"draw-up", draw_up},
                                       {"self-holding", self_holding}});
}

}  // namespace
