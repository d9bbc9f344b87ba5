// SPDX-License-Identifier: MIT
#include <published/formulas.hpp>

#include <cmath>
#include <numbers>
#include <trialfit/trade/engine/crank_slider.hpp>
#include <trialfit/trade/engine/timing_point.hpp>
#include <trialfit/trade/strength/rotor.hpp>

using namespace trialfit::trade;
using namespace trialfit::testing;

namespace {

Crank crank_in(Given& given) {
    if (given.has("radius"))
        return value_of(crank_of_radius(given("radius"), given("rod"), given("offset", 0.0)));
    return value_of(crank_of(given("stroke"), given("rod"), given("offset", 0.0)));
}

Figures drop(Given& given) {
    const Crank crank = crank_in(given);
    const double degrees = given("degrees");
    return {{"before", piston_drop(crank, -degrees)}, {"after", piston_drop(crank, degrees)}};
}

Figures angle(Given& given) {
    const Crank crank = crank_in(given);
    const double drop = given("drop");
    return {{"before", value_of(degrees_from_top(crank, drop, StrokeSide::before_top))},
            {"after", value_of(degrees_from_top(crank, drop, StrokeSide::after_top))}};
}

Figures motion(Given& given) {
    const Crank crank = crank_in(given);
    const CrankMotion now = crank_motion(crank, given("degrees"), given("rpm"));
    return {{"drop", now.drop},
            {"speed_m_s", now.speed_m_s},
            {"speed_ft_s", now.speed_m_s / 0.3048},
            {"acceleration_ft_s2", now.acceleration_m_s2 / 0.3048},
            {"rod_angle_deg", now.rod_angle_deg},
            {"rod_rate_rad_s", now.rod_rate_rad_s}};
}

Figures fastest(Given& given) {
    const FastestPiston found = fastest_piston(crank_in(given), given("rpm"));
    return {{"degrees", found.after_top_deg}, {"speed_m_s", found.motion.speed_m_s}};
}

// A cylinder of a displacement, its compression ratio, the volume over the piston.
Figures cylinder(Given& given) {
    const double degrees = given("degrees");
    const double swept_cm3 = given("displacement_cm3") / given("cylinders");
    const double bore_cm =
        std::cbrt(4.0 * swept_cm3 / std::numbers::pi * given("bore_over_stroke"));
    const Crank crank =
        value_of(crank_of(10.0 * bore_cm / given("bore_over_stroke"), given("rod")));
    const CrankMotion now = crank_motion(crank, degrees, given("rpm"));
    const double over_cm3 = std::numbers::pi / 4.0 * bore_cm * bore_cm * now.drop / 10.0;
    return {{"bore_cm", bore_cm},
            {"drop_cm", now.drop / 10.0},
            {"volume_cm3", swept_cm3 / (given("compression") - 1.0) + over_cm3},
            {"speed_m_s", now.speed_m_s}};
}

// Crank angles from the piston's line, pin height over the crank, rod angle as seen at the pin; the
// other branch is the pin on the far side of the crank: both roots sum to 2 R cos q.
Figures linkage(Given& given) {
    const double q_deg = given("q_deg");
    const Crank crank = crank_in(given);
    const CrankMotion now = crank_motion(crank, q_deg - top_q_deg(crank), 0.0);
    const double top = std::sqrt((crank.rod + crank.radius) * (crank.rod + crank.radius) -
                                 crank.offset * crank.offset);
    const double height = top - now.drop;
    const double twice = 2.0 * crank.radius * std::cos(q_deg * std::numbers::pi / 180.0);
    return {{"height", height},
            {"rod_direction", 180.0 - now.rod_angle_deg},
            {"other_height", twice - height},
            {"other_rod_direction", now.rod_angle_deg}};
}

Figures offset_crank(Given& given) {
    const Crank crank = crank_in(given);
    return {{"stroke", stroke_of(crank)},
            {"top_deg", top_q_deg(crank)},
            {"bottom_deg", bottom_q_deg(crank)},
            {"down_deg", down_stroke_deg(crank)}};
}

Figures tilted(Given& given) {
    return {{"reading_over_drop", value_of(gauge_reading(1.0, given("tilt_deg")))}};
}

TEST_CASE("crank and piston move as the books say") {
    check_formulas("trade_crank.yaml", {{"drop", drop},
                                        {"angle", angle},
                                        {"motion", motion},
                                        {"fastest", fastest},
                                        {"cylinder", cylinder},
                                        {"linkage", linkage},
                                        {"offset crank", offset_crank},
                                        {"tilted", tilted}});
}

}  // namespace
