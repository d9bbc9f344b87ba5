// SPDX-License-Identifier: MIT
#include <doctest/doctest.h>

#include <limits>
#include <stdexcept>
#include <string>
#include <trialfit/paper/text/figures.hpp>

namespace paper = trialfit::paper;
using trialfit::quantity::Unit;

TEST_CASE("a length is never minus nothing") {
    CHECK(paper::fixed(-0.001, 2) == "0.00");
    CHECK(paper::fixed(-0.006, 2) == "-0.01");
    CHECK(paper::fixed(0.0, 0) == "0");
    CHECK(paper::fixed(-4.0, 2) == "-4.00");
}

TEST_CASE("what is no figure is never printed as one") {
    for (const double none :
         {std::numeric_limits<double>::quiet_NaN(), std::numeric_limits<double>::infinity(),
          -std::numeric_limits<double>::infinity()}) {
        CHECK_THROWS_AS(static_cast<void>(paper::fixed(none, 2)), std::logic_error);
        CHECK_THROWS_AS(static_cast<void>(paper::enough(none, 2)), std::logic_error);
        CHECK_THROWS_AS(static_cast<void>(paper::at_most(none, 2)), std::logic_error);
        CHECK_THROWS_AS(static_cast<void>(paper::range({none, 1.0}, 2)), std::logic_error);
        CHECK_THROWS_AS(static_cast<void>(paper::percent(none)), std::logic_error);
        CHECK_THROWS_AS(static_cast<void>(paper::brief(none)), std::logic_error);
    }
}

TEST_CASE("a figure is rounded to the nearest, and the noise of a sum does not count") {
    CHECK(paper::fixed(21.09999999, 2) == "21.10");
    CHECK(paper::fixed(22.01 - 0.91, 2) == "21.10");
    CHECK(paper::fixed(9.524999999999999, 3) == "9.525");
    // A half in decimals lies on either side of it in binary.
    CHECK(paper::fixed(0.485, 2) == "0.49");
    CHECK(paper::fixed(0.5 - 0.015, 2) == "0.49");
    CHECK(paper::fixed(-0.485, 2) == "-0.49");
    CHECK(paper::fixed(1e300, 0).size() == 301);
}

TEST_CASE("what lies between two printed figures is their difference") {
    CHECK(paper::apart(0.0653, 0.15, 2) == "0.08");
    CHECK(paper::fixed(0.0653, 2) == "0.07");
    for (int i = 0; i < 200; ++i) {
        const double end = 0.15 - 0.00077 * i;
        const double told = std::stod(paper::fixed(end, 2)) + std::stod(paper::apart(end, 0.15, 2));
        CHECK(told == doctest::Approx(0.15).epsilon(1e-9));
    }
}

TEST_CASE("an amount that must suffice is rounded away from zero") {
    CHECK(paper::enough(4.7049, 2) == "4.71");
    CHECK(paper::enough(-4.7049, 2) == "-4.71");
    CHECK(paper::enough(4.70, 2) == "4.70");
    // 0.1 + 0.2 is a hair over 0.3 in binary: not a reason to take a hundredth more.
    CHECK(paper::enough(0.1 + 0.2, 2) == "0.30");
}

TEST_CASE("an amount that must not be passed is rounded towards zero") {
    CHECK(paper::at_most(0.6263, 2) == "0.62");
    CHECK(paper::at_most(-0.6263, 2) == "-0.62");
    CHECK(paper::at_most(1.0 - 0.9, 2) == "0.10");  // a hair under 0.1 in binary
}

TEST_CASE("decimals follow the unit") {
    CHECK(paper::decimals_for(Unit::mm, {4.0}, 0.2) == 2);
    CHECK(paper::decimals_for(Unit::inch, {0.5}, 0.002) == 4);
    CHECK(paper::decimals_for(Unit::um, {500.0}, 20.0) == 0);
    CHECK(paper::decimals_for(Unit::thou, {500.0}, 2.0) == 1);
}

TEST_CASE("one decimal more where a written length needs it") {
    CHECK(paper::decimals_for(Unit::mm, {61.985}, 0.1) == 3);
    CHECK(paper::decimals_for(Unit::mm, {2.0 / 3.0}, 0.1) == 2);  // no number of decimals will do
}

TEST_CASE("more decimals where something small would not show") {
    CHECK(paper::decimals_for(Unit::mm, {1.0}, 0.009) == 3);
    CHECK(paper::decimals_for(Unit::mm, {1.0}, 0.0009) == 4);
    CHECK(paper::decimals_for(Unit::mm, {1.0}, 1e-9) == 4);
    CHECK(paper::decimals_for(Unit::mm, {1.0}, 0.0) == 2);
}

TEST_CASE("ranges, shares and factors") {
    CHECK(paper::range({-4.305, -3.7}, 1) == "-4.3 to -3.7");
    CHECK(paper::percent(0.9875) == "99 %");
    CHECK(paper::percent(0.0) == "0 %");
    CHECK(paper::brief(5.0) == "5");
    CHECK(paper::brief(-0.2) == "-0.2");
    CHECK(paper::brief(1.0 / 3.0) == "0.3333");
}
