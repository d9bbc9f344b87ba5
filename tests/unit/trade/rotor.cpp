// SPDX-License-Identifier: MIT
#include <doctest/doctest.h>

#include <cmath>
#include <numbers>
#include <trialfit/trade/strength/balance.hpp>
#include <trialfit/trade/strength/rotor.hpp>

using namespace trialfit::trade;

namespace {

constexpr SpinningRing kRing{24, 100, 7850, 0.29};

TEST_CASE("stresses go with the square of the speed and the mean lies between bore and rim") {
    const RingStress slow = *spinning_ring(kRing, 6000);
    const RingStress fast = *spinning_ring(kRing, 12000);
    CHECK(fast.hoop_bore_mpa == doctest::Approx(4 * slow.hoop_bore_mpa));
    CHECK(fast.hoop_bore_mpa > fast.mean_hoop_mpa);
    CHECK(fast.mean_hoop_mpa > fast.hoop_rim_mpa);
    CHECK(fast.rim_speed_m_s == doctest::Approx(0.05 * 12000 * std::numbers::pi / 30));
    CHECK(spinning_ring(kRing, 0)->hoop_bore_mpa == 0);
}

TEST_CASE("a pin hole doubles the hoop stress of a solid disc") {
    const double solid = spinning_ring({0, 100, 7850, 0.29}, 9000)->hoop_bore_mpa;
    const double holed = spinning_ring({1e-6, 100, 7850, 0.29}, 9000)->hoop_bore_mpa;
    CHECK(holed == doctest::Approx(2 * solid));
}

TEST_CASE("the speeds of yield give the stresses back") {
    const double first = *first_yield_rpm(kRing, 300);
    const double all = *fully_plastic_rpm(kRing, 300);
    CHECK(spinning_ring(kRing, first)->hoop_bore_mpa == doctest::Approx(300).epsilon(1e-12));
    CHECK(spinning_ring(kRing, all)->mean_hoop_mpa == doctest::Approx(300).epsilon(1e-12));
    CHECK(all > first);
}

TEST_CASE("rings nested into a solid disc weigh and turn as the disc") {
    const RingInertia parts = *ring_inertia(0, 30, 10, 7850) + *ring_inertia(30, 100, 10, 7850);
    const RingInertia whole = *ring_inertia(0, 100, 10, 7850);
    CHECK(parts.mass_kg == doctest::Approx(whole.mass_kg).epsilon(1e-14));
    CHECK(parts.inertia_kg_m2 == doctest::Approx(whole.inertia_kg_m2).epsilon(1e-14));
    CHECK(weighed_ring_inertia(30, 100, 1.2)->inertia_kg_m2 ==
          doctest::Approx(1.2 * (0.015 * 0.015 + 0.05 * 0.05) / 2));
}

TEST_CASE("acceleration asks its torque of the seat") {
    const RingInertia body{1.2, 1.6e-3};
    CHECK(torque_for_acceleration_n_mm(body, 5000) == doctest::Approx(8000));
    const SpinUp up = spin_up(body, 8000, 3000);
    CHECK(up.time_s == doctest::Approx(radians_per_second(3000) / 5000));
    CHECK(up.slip_heat_j == doctest::Approx(0.5 * 1.6e-3 * std::pow(radians_per_second(3000), 2)));
}

TEST_CASE("balance: shares add up and the centre is shared evenly") {
    const PlaneShare share = *two_plane_split(30, 20, 30);
    CHECK(share.left_g_mm == doctest::Approx(18));
    CHECK(share.left_g_mm + share.right_g_mm == doctest::Approx(30));
    CHECK(two_plane_split(30, 90, 10)->left_g_mm == doctest::Approx(9));
    CHECK(two_plane_split(30, 0, 0).reason() ==
          "distance between the planes must be greater than 0, not 0");
    CHECK(kBalanceGrades_mm_s.front() < kBalanceGrades_mm_s.back());
}

TEST_CASE("what a rotor cannot be is said") {
    CHECK(spinning_ring({50, 40, 7850, 0.3}, 1).reason() ==
          "outside diameter (40) must be greater than bore (50)");
    CHECK(spinning_ring(kRing, -1).reason() == "speed cannot be negative, and is -1");
    CHECK(fully_plastic_rpm({0, 40, 0, 0.3}, 1).reason() ==
          "density must be greater than 0, not 0");
    CHECK(ring_inertia(0, 40, -1, 7850).reason() == "length cannot be negative, and is -1");
    CHECK(thin_rim_speed_m_s(0, 1).reason() == "density must be greater than 0, not 0");
}

}  // namespace
