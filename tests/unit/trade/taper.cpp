// SPDX-License-Identifier: MIT
#include <doctest/doctest.h>

#include <string>
#include <trialfit/trade/cone/taper.hpp>

namespace trialfit::trade {

TEST_CASE("a taper is read in every way a job may write it") {
    CHECK(taper("1 in 5").value() == 0.2);
    CHECK(taper("1:5").value() == 0.2);
    CHECK(taper(" 1 : 4.92 ").value() == 1.0 / 4.92);
    CHECK(taper("0.2").value() == 0.2);
    CHECK(taper("-0.2").value() == -0.2);
    CHECK(taper("1.5 in per ft").value() == 0.125);
    CHECK(taper("1 1/2 in/ft").value() == 0.125);
    CHECK(taper("3/4 in per foot").value() == 0.0625);
    CHECK(taper("14 to 20 over 29").value() == 6.0 / 29.0);
    CHECK(taper("20 to 14 over 29").value() == 6.0 / 29.0);
    CHECK(taper("90 deg included").value() == doctest::Approx(2.0).epsilon(1e-15));
    CHECK(taper("45 deg half").value() == doctest::Approx(2.0).epsilon(1e-15));
}

TEST_CASE("what is no taper is refused with the mend") {
    CHECK(taper("steep").reason() ==
          "'steep' is no taper; write 1 in 5, 1:5, 0.2, 1.5 in per ft, 14 to 20 over 29 or "
          "11.42 deg included");
    CHECK(taper("0").reason() == "'0' does not taper at all; a cone needs a taper other than 0");
    CHECK(taper("5").reason() ==
          "'5' is 5 of diameter per length, steeper than 90 degrees included; was the ratio turned "
          "round (1 in 5 is 0.2)?");
    CHECK(taper("13 to 13 over 20").reason().find("does not taper") != std::string::npos);
    for (const std::string bad : {"", "1:0", "0:5", "1 in", "in 5", "-1:5", "5 in per yd", "nan",
                                  "inf", "1e400", "14 to 20", "14 over 20", "11 deg",
                                  "180 deg included", "1:5:2", "1/0", "14 to 20 over 0"})
        CHECK_FALSE(taper(bad).ok());
}

TEST_CASE("a hundredth on the diameter of a 1:5 cone is 0.05 along it") {
    CHECK(travel_for_diameter(0.2, 0.01) == doctest::Approx(0.05).epsilon(1e-14));
    CHECK(key_stand_off(0.2, 0.01) == doctest::Approx(0.1).epsilon(1e-14));
    CHECK(radial_gap_at(0.2, 1.0) == doctest::Approx(0.1).epsilon(1e-14));
    CHECK(taper_figures(0.2).self_holding_friction == doctest::Approx(0.1).epsilon(1e-15));
}

TEST_CASE("travel and diameter undo each other, as do discs and distance") {
    for (const double t : {0.02, 0.1, 0.2, -0.3, 1.9}) {
        CHECK(diameter_for_travel(t, travel_for_diameter(t, 0.37)) ==
              doctest::Approx(0.37).epsilon(1e-14));
        CHECK(taper_of_half_angle_deg(taper_figures(t).half_deg) ==
              doctest::Approx(t).epsilon(1e-14));
    }
    CHECK(per_foot_of_discs(1.5, 1.0, disc_distance(1.5, 1.0, 0.6)) ==
          doctest::Approx(0.6).epsilon(1e-13));
}

}  // namespace trialfit::trade
