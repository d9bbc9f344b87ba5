// SPDX-License-Identifier: MIT
#include <doctest/doctest.h>

#include <cmath>
#include <trialfit/quantity/nearest.hpp>
#include <trialfit/quantity/size.hpp>
#include <trialfit/quantity/units.hpp>

using namespace trialfit::quantity;

TEST_CASE("units convert exactly where no millimetre detour is needed") {
    CHECK(convert(5.0, Unit::thou, Unit::inch) == 5.0 / 1000.0);
    CHECK(convert(1.0, Unit::inch, Unit::mm) == 25.4);
    CHECK(convert(50.0, Unit::um, Unit::mm) == 50.0 / 1000.0);
    CHECK(convert(25.4, Unit::mm, Unit::inch) == 1.0);
    CHECK(convert(0.0254, Unit::mm, Unit::thou) == doctest::Approx(1.0).epsilon(1e-15));
    CHECK(convert(1.0, Unit::um, Unit::thou) == doctest::Approx(0.001 / 0.0254).epsilon(1e-15));
    CHECK(convert(0.37, Unit::thou, Unit::thou) == 0.37);
}

TEST_CASE("unit words") {
    CHECK(unit_named("in") == Unit::inch);
    CHECK(unit_named("\u00b5m") == Unit::um);
    CHECK_FALSE(unit_named("cm").has_value());
    for (const Unit unit : {Unit::mm, Unit::inch, Unit::um, Unit::thou})
        CHECK(unit_named(name(unit)) == unit);
}

TEST_CASE("standard deviations of the shapes on limits +-0.3") {
    Size size{.nominal = 0.0, .lower = -0.3, .upper = 0.3, .spread = {.shape = Shape::normal}};
    CHECK(size.sd() == doctest::Approx(0.1));
    size.spread.shape = Shape::uniform;
    CHECK(size.sd() == doctest::Approx(0.3 / std::sqrt(3.0)));
    size.spread.shape = Shape::triangular;
    CHECK(size.sd() == doctest::Approx(0.3 / std::sqrt(6.0)));
    // sd of a standard normal cut at +-3: 0.986578367... (closed form; from memory, and by
    // quadrature).
    size.spread.shape = Shape::truncated_normal;
    CHECK(size.sd() == doctest::Approx(0.0986578).epsilon(1e-6));
    size.spread.shape = Shape::exact;
    CHECK(size.sd() == 0.0);
}

TEST_CASE("unequal limits: nominal and middle differ") {
    const Size size = toleranced(12.5, -0.02, 0.1);
    CHECK(size.nominal == 12.5);
    CHECK(size.middle() == doctest::Approx(12.54));
    CHECK(size.half_width() == doctest::Approx(0.06));
}

TEST_CASE("repeated readings: half-width a + 3 s/sqrt(n), variance a^2/3 + s^2/n") {
    const Size size = repeated_reading(12.5, 0.02, 4, 0.03);
    CHECK(size.half_width() == doctest::Approx(0.03 + 3 * 0.01));
    CHECK(size.sd() * size.sd() == doctest::Approx(0.03 * 0.03 / 3 + 0.01 * 0.01));
}

TEST_CASE("the nearest name") {
    CHECK(nearest("frnt", {"back", "front", "from"}) == "front");
    CHECK(nearest("Front", {"back", "front"}) == "front");
    CHECK(nearest("tolerence", {"tolerance", "title"}) == "tolerance");
    CHECK(nearest("ab", {"ba"}) == "ba");
    CHECK(nearest("washer", {"crank", "plate"}).empty());
    CHECK(nearest("", {"a"}).empty());
}
