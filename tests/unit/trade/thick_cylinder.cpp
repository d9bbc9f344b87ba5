// SPDX-License-Identifier: MIT
#include <doctest/doctest.h>

#include <cmath>
#include <trialfit/trade/strength/thick_cylinder.hpp>

using namespace trialfit::trade;

namespace {

TEST_CASE("a tube's pressures stand at its surfaces and its hoop stress carries them") {
    for (const double bore : {5.0, 20.0, 39.0}) {
        constexpr double kOd = 40.0;
        CAPTURE(bore);
        CHECK(tube_stress(bore, kOd, 70, 30, bore)->radial_mpa == doctest::Approx(-70));
        CHECK(tube_stress(bore, kOd, 70, 30, kOd)->radial_mpa == doctest::Approx(-30));
        // Half the tube in balance: hoop over both walls = pressures over the diameters.
        constexpr int kSteps = 20000;
        double carried = 0.0;
        for (int i = 0; i < kSteps; ++i) {
            const double dia = bore + (kOd - bore) * (i + 0.5) / kSteps;
            carried += tube_stress(bore, kOd, 70, 30, dia)->hoop_mpa * (kOd - bore) / kSteps;
        }
        CHECK(carried == doctest::Approx(70 * bore - 30 * kOd).epsilon(1e-6));
    }
}

TEST_CASE("a thin wall comes near the thin-tube stress, a thick one exceeds it") {
    const double thin = tube_stress(100, 101, 1, 0, 100)->hoop_mpa;
    CHECK(thin == doctest::Approx(thin_tube_hoop_mpa(100, 0.5, 1)).epsilon(0.01));
    CHECK(tube_stress(20, 60, 1, 0, 20)->hoop_mpa > thin_tube_hoop_mpa(20, 20, 1));
}

TEST_CASE("a solid shaft is pressed alike everywhere") {
    const TubeStress middle = *tube_stress(0, 20, 0, 50, 0);
    CHECK(middle.hoop_mpa == -50);
    CHECK(middle.radial_mpa == -50);
    CHECK(von_mises_mpa(middle) == doctest::Approx(50));
}

TEST_CASE("interference and pressure lead to each other and back") {
    const ShrinkPair pair{6, 20, 40, {207000, 0.292}, {71700, 0.333}};
    const ShrinkStress stress = *shrink_from_interference(pair, 0.02);
    CHECK(shrink_from_pressure(pair, stress.pressure_mpa)->interference ==
          doctest::Approx(0.02).epsilon(1e-14));
    CHECK(stress.hub_joint.radial_mpa == doctest::Approx(-stress.pressure_mpa));
    CHECK(stress.shaft_joint.radial_mpa == doctest::Approx(-stress.pressure_mpa));
    CHECK(stress.hub_rim.radial_mpa == doctest::Approx(0).epsilon(1e-12));
    CHECK(stress.shaft_bore.radial_mpa == doctest::Approx(0).epsilon(1e-12));
    // The strains at the joint make up the interference.
    const double hub = (stress.hub_joint.hoop_mpa - 0.333 * stress.hub_joint.radial_mpa) / 71700;
    const double shaft =
        (stress.shaft_joint.hoop_mpa - 0.292 * stress.shaft_joint.radial_mpa) / 207000;
    CHECK(20 * (hub - shaft) == doctest::Approx(0.02).epsilon(1e-12));
}

TEST_CASE("the allowance of the shrink-fit factor stresses the hub as asked") {
    const ShrinkPair pair{0, 250, 375, {206843, 1.0 / 3.0}, {206843, 1.0 / 3.0}};
    const double allowance = *shrink_allowance(pair, 170);
    const ShrinkStress stress = *shrink_from_interference(pair, allowance * 250);
    // Maximum-strain criterion: Young's modulus times the hub's hoop strain.
    const double equivalent = stress.hub_joint.hoop_mpa - stress.hub_joint.radial_mpa / 3.0;
    CHECK(equivalent == doctest::Approx(170).epsilon(1e-12));
}

TEST_CASE("what a tube cannot be is said") {
    const ShrinkPair pair{0, 20, 40, {207000, 0.292}, {0, 0.3}};
    CHECK(interference_per_mpa(pair).reason() == "hub modulus must be greater than 0, not 0");
    CHECK(shrink_fit_factor({20, 20, 40, {}, {}}).reason() ==
          "joint diameter (20) must be greater than shaft bore (20)");
    const ShrinkPair good{0, 20, 40, {207000, 0.292}, {207000, 0.292}};
    CHECK(shrink_from_interference(good, -0.01).reason() ==
          "interference cannot be negative, and is -0.01");
    CHECK(shrink_from_pressure(good, std::nan("")).reason() ==
          "pressure cannot be negative, and is nan");
    CHECK(shrink_allowance(good, -1).reason() == "stress cannot be negative, and is -1");
    CHECK(tube_stress(-1, 2, 0, 0, 1).reason() == "bore cannot be negative, and is -1");
}

}  // namespace
