// SPDX-License-Identifier: MIT
#include <doctest/doctest.h>

#include <limits>
#include <trialfit/trade/fit/general.hpp>

namespace trialfit::trade {

TEST_CASE("general classes are f, m, c and v") {
    CHECK(general_class("m") == GeneralClass::m);
    CHECK(letter(GeneralClass::v) == 'v');
    for (const char* bad : {"", "M", "fm", "mc", "x", "ISO 2768-m"})
        CHECK_FALSE(general_class(bad));
}

TEST_CASE("the sign of a length does not count") {
    CHECK(general_half_width_mm(GeneralClass::m, -40.0).value() == 0.3);
}

TEST_CASE("a length without a general tolerance is refused with the mend") {
    CHECK(general_half_width_mm(GeneralClass::v, 2.0).reason() ==
          "ISO 2768-v has no tolerance for 2 mm; state this size's own limits");
    CHECK_FALSE(general_half_width_mm(GeneralClass::m, 0.0).ok());
    CHECK_FALSE(general_half_width_mm(GeneralClass::m, 4001.0).ok());
    CHECK_FALSE(general_half_width_mm(GeneralClass::f, 2000.5).ok());
    CHECK_FALSE(
        general_half_width_mm(GeneralClass::m, std::numeric_limits<double>::quiet_NaN()).ok());
}

TEST_CASE("a length a last bit above its step stays in it") {
    CHECK(general_half_width_mm(GeneralClass::m, 30.0 + 1e-12).value() == 0.2);
    CHECK(general_half_width_mm(GeneralClass::m, 30.001).value() == 0.3);
}

}  // namespace trialfit::trade
