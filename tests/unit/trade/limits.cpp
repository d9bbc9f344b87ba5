// SPDX-License-Identifier: MIT
#include <doctest/doctest.h>

#include <cmath>
#include <limits>
#include <string>
#include <trialfit/trade/fit/limits.hpp>

namespace trialfit::trade {

TEST_CASE("a tolerance class is read as written") {
    CHECK(tolerance_class("h7").value() == ToleranceClass{"h", false, 7});
    CHECK(tolerance_class(" H7 ").value() == ToleranceClass{"h", true, 7});
    CHECK(tolerance_class("js6").value() == ToleranceClass{"js", false, 6});
    CHECK(tolerance_class("ZC11").value() == ToleranceClass{"zc", true, 11});
    CHECK(tolerance_class("h01").value() == ToleranceClass{"h", false, -1});
    CHECK(tolerance_class("h0").value() == ToleranceClass{"h", false, 0});
}

TEST_CASE("what is no tolerance class is refused with the mend") {
    CHECK(
        tolerance_class("7h").reason() ==
        "'7h' is no tolerance class; write a letter and a grade, h7 for a shaft or H7 for a hole");
    CHECK(
        tolerance_class("Js6").reason() ==
        "'Js6' mixes small letters and capitals; small ones are for a shaft, capitals for a hole");
    CHECK(tolerance_class("w6").reason() ==
          "'w' is no letter of ISO 286; the letters are a to zc without i, l, o, q, w");
    CHECK(tolerance_class("h19").reason() ==
          "'h19' asks for grade 19; ISO 286 grades run from 01 and 0 to 18");
    for (const std::string bad : {"", "h", "6", "h07", "h-7", "h7x", "h777", "ab7", "h 7"})
        CHECK_FALSE(tolerance_class(bad).ok());
}

TEST_CASE("sizes and classes that the standard does not cover are refused") {
    CHECK(
        deviations("h7", 0.0).reason() ==
        "ISO 286 limits are known over 0 up to 500 mm, not for 0 mm; state the limits themselves");
    CHECK_FALSE(deviations("h7", -3.0).ok());
    CHECK_FALSE(deviations("h7", 500.1).ok());
    CHECK_FALSE(deviations("h7", std::numeric_limits<double>::quiet_NaN()).ok());
    CHECK(deviations("h7", 500.0).ok());
    CHECK(deviations("t6", 20.0).reason() ==
          "ISO 286 has no t6 at 20 mm; take another class or state the limits themselves");
    CHECK(deviations("t6", 25.0).ok());
    CHECK_FALSE(deviations("cd6", 12.0).ok());
    CHECK_FALSE(deviations("K9", 10.0).ok());
    CHECK_FALSE(deviations("j9", 10.0).ok());
    CHECK_FALSE(deviations("a9", 1.0).ok());
    CHECK_FALSE(deviations("h14", 1.0).ok());
    CHECK_FALSE(deviations("P2", 10.0).ok());
}

// ISO 286-2 values, from memory of the printed tables.
TEST_CASE("classes beyond the published cases") {
    const auto um = [](const char* name, double size) {
        const auto found = deviations(name, size).value();
        return std::pair{std::lround(found.lower_mm * 10000.0),
                         std::lround(found.upper_mm * 10000.0)};
    };
    using Pair = std::pair<long, long>;
    CHECK(um("js6", 10.0) == Pair{-45, 45});
    CHECK(um("JS7", 10.0) == Pair{-75, 75});
    CHECK(um("j6", 40.0) == Pair{-50, 110});
    CHECK(um("J7", 40.0) == Pair{-110, 140});
    CHECK(um("d9", 20.0) == Pair{-1170, -650});
    CHECK(um("D10", 20.0) == Pair{650, 1490});
    CHECK(um("c11", 45.0) == Pair{-2900, -1300});
    CHECK(um("r6", 60.0) == Pair{410, 600});
    CHECK(um("R7", 60.0) == Pair{-600, -300});
    CHECK(um("S7", 110.0) == Pair{-1010, -660});
    CHECK(um("u6", 30.0) == Pair{480, 610});
    CHECK(um("M6", 300.0) == Pair{-410, -90});
    CHECK(um("k8", 40.0) == Pair{0, 390});
    CHECK(um("N9", 40.0) == Pair{-620, 0});
    CHECK(um("N9", 2.0) == Pair{-290, -40});
    CHECK(um("M9", 10.0) == Pair{-420, -60});
}

TEST_CASE("a size a last bit above its step, as inches convert, stays in it") {
    CHECK(deviations("h7", 18.0 + 1e-12).value() == deviations("h7", 18.0).value());
    CHECK(deviations("h7", 18.001).value().lower_mm == -0.021);
}

// ISO 286-1, 4.3.2.5: a hole with delta holds the shaft of the next finer grade as the mirrored
// fit does: H7/p6 and P7/h6 have the same clearances.
TEST_CASE("mirrored fits have the same clearances") {
    for (const double size : {4.0, 12.0, 25.0, 63.0, 110.0, 170.0, 240.0, 300.0, 400.0, 450.0})
        for (const std::string letters : {"pP", "rR", "sS", "uU", "xX", "zZ"}) {
            const std::string text = std::to_string(static_cast<int>(size));
            const auto basic_hole = fit(text + "H7/" + letters[0] + "6").value();
            const auto basic_shaft = fit(text + letters[1] + "7/h6").value();
            CHECK(basic_hole.least_clearance_mm() ==
                  doctest::Approx(basic_shaft.least_clearance_mm()).epsilon(1e-12));
            CHECK(basic_hole.greatest_clearance_mm() ==
                  doctest::Approx(basic_shaft.greatest_clearance_mm()).epsilon(1e-12));
        }
}

TEST_CASE("a fit is read as written") {
    const auto found = fit("25 H7/g6").value();
    CHECK(found.size_mm == 25.0);
    CHECK(found.hole_class == "H7");
    CHECK(found.shaft_class == "g6");
    CHECK(fit("25g6/H7").reason() ==
          "'25g6/H7' must name the hole (capitals) first and the shaft (small letters) second");
    CHECK(fit("H7/g6").reason() == "'H7/g6' is no fit; write size, hole and shaft, as in 25H7/g6");
    for (const std::string bad :
         {"", "25", "25H7", "25H7/", "/g6", "25/g6", "25H7/g99", "900H7/g6"})
        CHECK_FALSE(fit(bad).ok());
}

}  // namespace trialfit::trade
