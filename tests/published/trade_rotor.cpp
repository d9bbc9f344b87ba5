// SPDX-License-Identifier: MIT
#include <published/formulas.hpp>

#include <trialfit/trade/strength/balance.hpp>
#include <trialfit/trade/strength/rotor.hpp>

using namespace trialfit::trade;
using namespace trialfit::testing;

namespace {

// 1 lbf = 4.4482216152605 N and 1 in = 25.4 mm exactly.
constexpr double kMpaPerPsi = 4.4482216152605 / (25.4 * 25.4);
constexpr double kKgPerPound = 0.45359237;

SpinningRing ring_in(Given& given) {
    return {2.0 * given("bore_radius", 0.0), 2.0 * given("rim_radius"), given("density"),
            given("poisson")};
}

Figures figures_of(const RingStress& stress) {
    return {
        {"hoop_bore", stress.hoop_bore_mpa},     {"hoop_rim", stress.hoop_rim_mpa},
        {"radial_most", stress.radial_most_mpa}, {"radial_most_radius", stress.radial_most_dia / 2},
        {"mean_hoop", stress.mean_hoop_mpa},     {"rim_speed", stress.rim_speed_m_s}};
}

Figures ring(Given& given) {
    const SpinningRing body = ring_in(given);
    return figures_of(value_of(spinning_ring(body, given("rpm"))));
}

// Inches, lbf/in3 with the book's g (in/s2), psi.
Figures inch_ring(Given& given) {
    const double mass_density = given("weight_lbf_in3") / given("gravity_in_s2");  // lbf s2/in4
    const double density = mass_density * 4.4482216152605 / 0.0254 / (25.4e-3 * 25.4e-3 * 25.4e-3);
    const SpinningRing body{25.4 * given("bore"), 25.4 * given("od"), density, given("poisson")};
    const RingStress stress = value_of(spinning_ring(body, given("rpm")));
    return {{"hoop_bore_psi", stress.hoop_bore_mpa / kMpaPerPsi},
            {"radial_most_psi", stress.radial_most_mpa / kMpaPerPsi},
            {"radial_most_radius_in", stress.radial_most_dia / 2.0 / 25.4},
            {"shear_psi", stress.hoop_bore_mpa / 2.0 / kMpaPerPsi}};
}

Figures yield_speeds(Given& given) {
    const SpinningRing body = ring_in(given);
    const double strength = given("strength");
    const double first = radians_per_second(value_of(first_yield_rpm(body, strength)));
    const double all = radians_per_second(value_of(fully_plastic_rpm(body, strength)));
    return {{"first_rad_s", first}, {"plastic_rad_s", all}, {"ratio", all / first}};
}

Figures thin_rim(Given& given) {
    const double speed = value_of(thin_rim_speed_m_s(given("density"), given("stress")));
    return {{"speed_m_s", speed}, {"dia_m", diameter_of_rim_speed(speed, given("rpm")) / 1e3}};
}

// Against rho v^2: the factor that a thin ring or a solid disc puts before it.
Figures against_rim_speed(Given& given) {
    const SpinningRing body = ring_in(given);
    const RingStress stress = value_of(spinning_ring(body, 10000));
    const double pressure = body.density_kg_m3 * stress.rim_speed_m_s * stress.rim_speed_m_s * 1e-6;
    return {{"factor", stress.hoop_bore_mpa / pressure}};
}

Figures balance(Given& given) {
    const BalanceLimit limit =
        value_of(balance_limit(given("grade"), given("rpm"), given("mass_kg", 1.0)));
    return {{"eccentricity_um", limit.eccentricity_um},
            {"unbalance_g_mm", limit.unbalance_g_mm},
            {"unbalance_kg_mm", limit.unbalance_g_mm / 1e3},
            {"force_n", limit.force_n}};
}

Figures two_planes(Given& given) {
    const double unbalance =
        value_of(balance_limit(given("grade"), given("rpm"), given("mass_kg"))).unbalance_g_mm;
    const PlaneShare share = value_of(two_plane_split(unbalance, given("left"), given("right")));
    return {{"unbalance_g_mm", unbalance},
            {"left_g_mm", share.left_g_mm},
            {"right_g_mm", share.right_g_mm},
            {"left_share", share.left_g_mm / unbalance}};
}

// U [oz in] = constant * G * W [lb] / n.
Figures inch_constant(Given& given) {
    const BalanceLimit limit =
        value_of(balance_limit(given("grade"), given("rpm"), given("mass_lb") * kKgPerPound));
    return {
        {"constant", limit.unbalance_oz_in * given("rpm") / (given("grade") * given("mass_lb"))}};
}

Figures inertia(Given& given) {
    const double bore = 2.0 * given("bore_radius", 0.0);
    const double od = 2.0 * given("rim_radius");
    const RingInertia body =
        given.has("mass_kg") ? value_of(weighed_ring_inertia(bore, od, given("mass_kg")))
                             : value_of(ring_inertia(bore, od, given("length"), given("density")));
    return {{"mass_kg", body.mass_kg}, {"inertia", body.inertia_kg_m2}};
}

Figures side_by_side(Given& given) {
    const double length = given("length");
    const double density = given("density");
    const double one = given("one_radius");
    const double other = given("other_radius");
    const RingInertia both =
        value_of(ring_inertia(0, 2 * one, length, density)) +
        about_axis_at(value_of(ring_inertia(0, 2 * other, length, density)), one + other);
    return {{"inertia", both.inertia_kg_m2}};
}

TEST_CASE("rotors spin, balance and weigh as the books say") {
    check_formulas("trade_rotor.yaml", {{"ring", ring},
                                        {"inch ring", inch_ring},
                                        {"yield speeds", yield_speeds},
                                        {"thin rim", thin_rim},
                                        {"against rim speed", against_rim_speed},
                                        {"balance", balance},
                                        {"two planes", two_planes},
                                        {"inch constant", inch_constant},
                                        {"inertia", inertia},
                                        {"side by side", side_by_side}});
}

}  // namespace
