// SPDX-License-Identifier: MIT
#include <doctest/doctest.h>

#include <trialfit/quantity/figures.hpp>

using namespace trialfit::quantity;

TEST_CASE("a length that is a figure but for rounding noise is that figure") {
    CHECK(rounded(21.09999999, 2) == 21.10);
    CHECK(rounded(22.01 - 0.91, 2) == 21.10);
    CHECK(rounded(-0.004, 2) == 0.0);
    CHECK(rounded(9.524999999999999, 4) == 9.525);
}

TEST_CASE("figures have no trailing zeros and no comma") {
    CHECK(plain(5.53) == "5.53");
    CHECK(plain(73.895) == "73.895");
    CHECK(plain(10.0) == "10");
    CHECK(plain(-0.0000000001) == "0");
    CHECK(plain(100.0, 0) == "100");
    CHECK(told(5.5, Unit::mm) == "5.5 mm");
    CHECK(told(0.21654, Unit::inch) == "0.21654 in");
}
