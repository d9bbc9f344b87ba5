// SPDX-License-Identifier: MIT
#include <doctest/doctest.h>

#include <trialfit/trade/strength/thermal.hpp>

using namespace trialfit::trade;

namespace {

TEST_CASE("tied bars pull equally hard and end equally long") {
    const TiedBar aluminium{100, 71700, 23.6e-6};
    const TiedBar steel{40, 207000, 11.7e-6};
    const TiedStress stress = *tied_bars(aluminium, steel, 60);
    CHECK(stress.more_mpa * 100 == doctest::Approx(stress.less_mpa * 40));
    CHECK(23.6e-6 * 60 - stress.more_mpa / 71700 == doctest::Approx(stress.strain));
    CHECK(11.7e-6 * 60 + stress.less_mpa / 207000 == doctest::Approx(stress.strain));
    CHECK_FALSE(tied_bars(steel, aluminium, 60).ok());
    CHECK_FALSE(tied_bars(aluminium, {0, 207000, 11.7e-6}, 60).ok());
}

TEST_CASE("a bar with room to grow is not stressed") {
    CHECK(held_bar_stress_mpa(1000, 12e-6, 50, 200000, 0.6) == doctest::Approx(0));
    CHECK(held_bar_stress_mpa(1000, 12e-6, 50, 200000, 1.0) == 0.0);
    const double room = room_for_stress(1000, 12e-6, 50, 200000, 30);
    CHECK(held_bar_stress_mpa(1000, 12e-6, 50, 200000, room) == doctest::Approx(30));
    CHECK(thermal_growth(50, 23.6e-6, -10) < 0);
    CHECK(warming_for_growth_k(thermal_growth(50, 12e-6, 80), 50, 12e-6) == doctest::Approx(80));
}

}  // namespace
