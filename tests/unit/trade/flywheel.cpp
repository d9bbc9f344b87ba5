// SPDX-License-Identifier: MIT
#include <doctest/doctest.h>

#include <trialfit/trade/engine/flywheel.hpp>

using namespace trialfit::trade;
using doctest::Approx;

TEST_CASE("energy and speed, there and back") {
    for (const double inertia : {1e-4, 2.5e-3, 40.0})
        for (const double rpm : {1.0, 870.0, 12000.0}) {
            const double energy = stored_energy_j(inertia, rpm);
            CHECK(speed_of_energy_rpm(inertia, energy) == Approx(rpm).epsilon(1e-14));
            CHECK(inertia_of_energy_kg_m2(energy, rpm) == Approx(inertia).epsilon(1e-14));
        }
    // 0.5 * 0.003 * (600 * 2 pi/60)^2 = 0.0015 * 400 pi^2
    CHECK(stored_energy_j(0.003, 600.0) == Approx(5.921762640653615).epsilon(1e-14));
}

TEST_CASE("an inertia that keeps a speed gives up just that energy") {
    const double inertia = inertia_to_keep_kg_m2(8.5, 870.0, 450.0);
    CHECK(stored_energy_j(inertia, 870.0) - stored_energy_j(inertia, 450.0) ==
          Approx(8.5).epsilon(1e-13));
}

TEST_CASE("a torque over a turn, a rim, and a speed that goes up and down") {
    CHECK(work_of_torque_j(2.0, 3.0) == Approx(37.69911184307752).epsilon(1e-14));
    CHECK(rim_speed_m_s(100.0, 6000.0) == Approx(31.41592653589793).epsilon(1e-14));
    // Between 990 and 1010 rpm the mean is 1000 and the coefficient 0.02.
    const double swing = stored_energy_j(0.02, 1010.0) - stored_energy_j(0.02, 990.0);
    CHECK(coefficient_of_fluctuation(swing, 0.02, 1000.0) == Approx(0.02).epsilon(1e-13));
}
