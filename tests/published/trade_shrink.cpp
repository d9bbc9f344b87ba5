// SPDX-License-Identifier: MIT
#include <published/formulas.hpp>

#include <limits>
#include <trialfit/trade/strength/thermal.hpp>
#include <trialfit/trade/strength/thick_cylinder.hpp>

using namespace trialfit::trade;
using namespace trialfit::testing;

namespace {

ShrinkPair pair_in(Given& given) {
    const double modulus = given("modulus", 1.0);
    const double poisson = given("poisson", 0.0);
    return {given("shaft_bore", 0.0), given("joint_dia"), given("hub_od"),
            Elastic{given("shaft_modulus", modulus), given("shaft_poisson", poisson)},
            Elastic{given("hub_modulus", modulus), given("hub_poisson", poisson)}};
}

Figures figures_of(const ShrinkStress& stress) {
    return {{"interference", stress.interference},
            {"radial_interference", stress.interference / 2.0},
            {"pressure", stress.pressure_mpa},
            {"hub_hoop", stress.hub_joint.hoop_mpa},
            {"hub_rim_hoop", stress.hub_rim.hoop_mpa},
            {"hub_von_mises", von_mises_mpa(stress.hub_joint)},
            {"shaft_hoop", stress.shaft_joint.hoop_mpa},
            {"shaft_bore_hoop", stress.shaft_bore.hoop_mpa},
            {"shaft_von_mises", von_mises_mpa(stress.shaft_joint)}};
}

Figures from_interference(Given& given) {
    const ShrinkPair pair = pair_in(given);
    return figures_of(value_of(shrink_from_interference(pair, given("interference"))));
}

Figures from_pressure(Given& given) {
    const ShrinkPair pair = pair_in(given);
    return figures_of(value_of(shrink_from_pressure(pair, given("pressure"))));
}

// The pressure at which the hub's bore is at a hoop stress: all goes with the pressure.
Figures at_hub_limit(Given& given) {
    const ShrinkPair pair = pair_in(given);
    const double unit = value_of(shrink_from_pressure(pair, 1.0)).hub_joint.hoop_mpa;
    Figures figures = figures_of(value_of(shrink_from_pressure(pair, given("limit") / unit)));
    figures["hub_bore"] = pair.joint_dia - figures["interference"];
    return figures;
}

Figures tube(Given& given) {
    const double bore = given("bore");
    const double od = given("od");
    const double inside = given("inside", 0.0);
    const TubeStress stress =
        value_of(tube_stress(bore, od, inside, given("outside", 0.0), given("dia")));
    return {{"radial", stress.radial_mpa},
            {"hoop", stress.hoop_mpa},
            {"thin_hoop", thin_tube_hoop_mpa(bore, (od - bore) / 2.0, inside)}};
}

Figures tube_limit(Given& given) {
    const double bore = given("bore");
    const double od = given("od");
    const double limit = given("limit");
    return {{"inside", limit / value_of(tube_stress(bore, od, 1.0, 0.0, bore)).hoop_mpa},
            {"outside", -limit / value_of(tube_stress(bore, od, 0.0, 1.0, bore)).hoop_mpa}};
}

Figures warming(Given& given) {
    return {{"warming_k",
             warming_for_growth_k(given("growth"), given("dia"), given("expansion_per_k"))}};
}

// The handbook's ratios k = hub od/bore and q = shaft od/bore; q left out is a solid shaft.
Figures factor(Given& given) {
    constexpr double kJoint = 100.0;
    const Elastic metal{206843, 1.0 / 3.0};
    const double bore = given.has("q") ? kJoint / given("q") : 0.0;
    const ShrinkPair pair{bore, kJoint, kJoint * given("k"), metal, metal};
    return {{"factor", value_of(shrink_fit_factor(pair))},
            {"allowance", value_of(shrink_allowance(pair, given("stress", 0.0)))}};
}

TEST_CASE("thick tubes and shrink fits are stressed as the books say") {
    check_formulas("trade_shrink.yaml", {{"interference", from_interference},
                                         {"pressure", from_pressure},
                                         {"hub limit", at_hub_limit},
                                         {"tube", tube},
                                         {"tube limit", tube_limit},
                                         {"warming", warming},
                                         {"handbook factor", factor}});
}

}  // namespace
