// SPDX-License-Identifier: MIT
#include <doctest/doctest.h>

#include <trialfit/trade/cone/cone_joint.hpp>

using namespace trialfit::trade;

namespace {

constexpr Elastic kSteel{207000, 0.292};
constexpr Elastic kAluminium{71700, 0.333};
constexpr ConeBearing kCone{0.2, 17, 18};
constexpr ConeBodies kBodies{0, 36, kSteel, kAluminium};

TEST_CASE("torque, force, pressure and draw-up lead to each other and back") {
    for (const double taper : {0.05, 0.1, 0.125, 0.2}) {
        for (const double friction : {0.06, 0.12, 0.2}) {
            CAPTURE(taper);
            CAPTURE(friction);
            const ConeBearing cone{taper, 17, 18};
            const ConePress press = *press_from_draw_up(cone, kBodies, friction, 0.1);
            const ConePress by_torque =
                *press_for_torque(cone, kBodies, friction, press.torque_n_mm);
            const ConePress by_force =
                *press_from_force(cone, kBodies, friction, press.seat_force_n);
            CHECK(by_torque.draw_up == doctest::Approx(0.1).epsilon(1e-12));
            CHECK(by_force.draw_up == doctest::Approx(0.1).epsilon(1e-12));
            CHECK(by_force.torque_n_mm == doctest::Approx(press.torque_n_mm).epsilon(1e-12));
            CHECK(by_force.pressure_mpa == doctest::Approx(press.pressure_mpa).epsilon(1e-12));
            const ConeGrip grip = *cone_grip(cone, friction, press.seat_force_n);
            CHECK(grip.torque_n_mm == doctest::Approx(press.torque_n_mm).epsilon(1e-12));
            CHECK(grip.pull_off_force_n == doctest::Approx(press.pull_off_force_n).epsilon(1e-12));
        }
    }
}

TEST_CASE("more torque asked draws the hub further up, further on a thin hub or a bored shaft") {
    double before = -1.0;
    for (int newton_metres = 0; newton_metres <= 80; newton_metres += 5) {
        const double draw_up = press_for_torque(kCone, kBodies, 0.12, newton_metres * 1e3)->draw_up;
        CHECK(draw_up > before);
        before = draw_up;
    }
    const ConeBodies thin{0, 24, kSteel, kAluminium};
    const ConeBodies bored{8, 36, kSteel, kAluminium};
    const double solid = press_for_torque(kCone, kBodies, 0.12, 40000)->draw_up;
    CHECK(press_for_torque(kCone, thin, 0.12, 40000)->draw_up > solid);
    CHECK(press_for_torque(kCone, bored, 0.12, 40000)->draw_up > solid);
}

TEST_CASE("a cone lets go by itself exactly where friction is the tangent of its half angle") {
    const ConeGrip below = *cone_grip(kCone, 0.0999, 1000);
    const ConeGrip above = *cone_grip(kCone, 0.1001, 1000);
    CHECK_FALSE(below.self_holding);
    CHECK(below.pull_off_force_n < 0);
    CHECK(above.self_holding);
    CHECK(above.pull_off_force_n > 0);
}

TEST_CASE("friction along the cone costs grip while it is pushed home") {
    const double sliding = cone_grip(kCone, 0.12, 15000)->torque_n_mm;
    const double still = cone_grip(kCone, 0.12, 15000, Seating::still)->torque_n_mm;
    CHECK(sliding < still);
    CHECK(*axial_force_for_torque(kCone, 0.12, still, Seating::still) ==
          doctest::Approx(15000).epsilon(1e-12));
    CHECK(cone_grip(kCone, 0.0, 15000)->torque_n_mm == 0.0);
}

TEST_CASE("length, force and pressure of a cone agree") {
    const double pressure = *cone_pressure_mpa(kCone, 20000);
    CHECK(*cone_length_for(kCone, 20000, pressure) == doctest::Approx(18).epsilon(1e-12));
}

TEST_CASE("a narrow worn cone holds what a new one of its mean diameter does") {
    const WornCone ends = cone_ends(100, 0.2, 0.01);
    const WornGrip worn = *worn_cone_grip(ends, 0.12, 0.5);
    const ConeGrip even = *cone_grip({0.2, 100, 1}, 0.12, worn.axial_force_n, Seating::still);
    CHECK(worn.torque_n_mm == doctest::Approx(even.torque_n_mm).epsilon(1e-6));
    CHECK(worn.width == doctest::Approx(0.01).epsilon(1e-9));
}

TEST_CASE("what a cone cannot be is said") {
    CHECK(cone_grip({0, 17, 18}, 0.1, 1).reason() == "taper must be greater than 0, not 0");
    CHECK(cone_grip({0.2, 0, 18}, 0.1, 1).reason() ==
          "mean diameter of the cone must be greater than 0, not 0");
    CHECK(cone_grip(kCone, 0.1, -1).reason() ==
          "force, torque or draw-up cannot be negative, and is -1");
    CHECK(axial_force_for_torque(kCone, 0, 1).reason() ==
          "without friction a cone holds no torque");
    CHECK(press_for_torque(kCone, kBodies, 0, 1).reason() ==
          "without friction a cone holds no torque");
    CHECK(press_from_draw_up({0.2, 17, 0}, kBodies, 0.1, 1).reason() ==
          "length of the cone must be greater than 0, not 0");
    CHECK(press_from_force(kCone, {0, 17, kSteel, kSteel}, 0.1, 1).reason() ==
          "hub outside diameter (17) must be greater than joint diameter (17)");
    CHECK(cone_length_for(kCone, 1, 0).reason() == "pressure must be greater than 0, not 0");
    CHECK(worn_cone_grip({30, 20, 0.2}, 0.1, 1).reason() ==
          "large diameter (20) must be greater than small diameter (30)");
}

}  // namespace
