// SPDX-License-Identifier: MIT
#include <cmath>
#include <string>
#include <string_view>

#include "support.hpp"

using namespace trialfit;
using doctest::Approx;
using quantity::Shape;
using quantity::Unit;

namespace {

job::Job context(Unit units = Unit::mm, char general = 0) {
    job::Job job;
    job.units = units;
    job.general_tolerance = general;
    job.gauges = {{.name = "caliper", .at = {}, .half_width = 0.03},
                  {.name = "depth_gauge", .at = {}, .half_width = 0.02}};
    return job;
}

quantity::Size size(std::string_view written, const job::Job& job = context()) {
    const auto outcome = reading::read_size(written, job);
    CAPTURE(written);
    CAPTURE(outcome.fault);
    REQUIRE(outcome.size);
    return *outcome.size;
}

// Limits are what the words say, to the rounding of one addition.
void check_limits(std::string_view written, double nominal, double lower, double upper,
                  Shape shape = Shape::normal, const job::Job& job = context()) {
    const quantity::Size read = size(written, job);
    CAPTURE(written);
    CHECK(read.nominal == Approx(nominal).epsilon(1e-14));
    CHECK(read.lower == Approx(lower).epsilon(1e-14));
    CHECK(read.upper == Approx(upper).epsilon(1e-14));
    CHECK(read.spread.shape == shape);
}

}  // namespace

TEST_CASE("symmetric tolerances in their three spellings") {
    for (const char* written : {"12.5 ±0.05", "12.5 +/-0.05", "12.5 +- 0.05", "12.5±.05",
                                "+12.5 ± 5e-2", " 12.5  ±0.05 "})
        check_limits(written, 12.5, 12.45, 12.55);
    check_limits("-6 ±0.05", -6, -6.05, -5.95);
    CHECK(size("12.5 ±0.05").sd() == Approx(0.05 / 3).epsilon(1e-12));
    check_limits("12.5 ±0", 12.5, 12.5, 12.5, Shape::exact);
}

TEST_CASE("two deviations, in either order when their signs differ") {
    for (const char* written : {"12.5 +0.1 -0.02", "12.5 -0.02 +0.1", "12.5 +0.1/-0.02",
                                "12.5 + 0.1 - 0.02", "12.5 +0.1 / -0.02"})
        check_limits(written, 12.5, 12.48, 12.6);
    check_limits("8.0 +0 -0.36", 8, 7.64, 8);
    check_limits("50 +0.059 +0.043", 50, 50.043, 50.059);
    check_limits("50 +0.059/+0.043", 50, 50.043, 50.059);
    check_limits("50 -0.040 -0.061", 50, 49.939, 49.96);
    CHECK(size("12.5 +0.1 -0.02").middle() == Approx(12.54).epsilon(1e-14));
}

TEST_CASE("limits") {
    const quantity::Size read = size("12.45..12.55");
    CHECK(read.lower == 12.45);  // as written, with no arithmetic between
    CHECK(read.upper == 12.55);
    CHECK(read.nominal == read.middle());
    CHECK(read.spread.shape == Shape::normal);
    check_limits("-1..1", 0, -1, 1);
    check_limits("0.05 .. 0.15", 0.1, 0.05, 0.15);
    check_limits("3..3", 3, 3, 3, Shape::exact);
}

TEST_CASE("ISO 286 letters and grades") {
    // ISO 286-2:2010: 25 h7 is 0/-21 um, 25 H7 +21/0, 50 s6 +59/+43, 25 js6 +-6.5 (these four
    // rows from memory; the tables are held against their sources in tests/published).
    check_limits("25 h7", 25, 24.979, 25);
    check_limits("25h7", 25, 24.979, 25);
    check_limits("25 H7", 25, 25, 25.021);
    check_limits("50 s6", 50, 50.043, 50.059);
    check_limits("25 js6", 25, 24.9935, 25.0065);
    check_limits("25 mm h7", 25, 24.979, 25);
    check_limits("25 h7 mm", 25, 24.979, 25);
    // 1 in is 25.4 mm, in the same step as 25.
    check_limits("1 h7", 1, 1 - 0.021 / 25.4, 1, Shape::normal, context(Unit::inch));
    check_limits("1 in h7", 25.4, 25.379, 25.4);
}

TEST_CASE("a gauge's reading is uniform, repeated ones narrower only in their scatter") {
    check_limits("12.48 by caliper", 12.48, 12.45, 12.51, Shape::uniform);
    CHECK(size("12.48 by caliper").sd() == Approx(0.03 / std::sqrt(3.0)).epsilon(1e-12));
    // Mean 12.5, s = sqrt(((-0.02)^2 + 0^2 + 0.02^2) / 2) = 0.02: half-width 0.03 + 3 s/sqrt(3).
    const quantity::Size three = size("[12.48, 12.50, 12.52] by caliper");
    const double scatter = 0.02 / std::sqrt(3.0);
    CHECK(three.nominal == Approx(12.5).epsilon(1e-14));
    CHECK(three.half_width() == Approx(0.03 + 3 * scatter).epsilon(1e-12));
    CHECK(three.sd() == Approx(std::sqrt(0.03 * 0.03 / 3 + scatter * scatter)).epsilon(1e-12));
    CHECK(size("[12.5, 12.5] by caliper").half_width() == Approx(0.03).epsilon(1e-12));
    check_limits("[-12.5, -12.5] by depth_gauge", -12.5, -12.52, -12.48, Shape::uniform);
    check_limits("[1, 1] in by caliper", 25.4, 25.37, 25.43, Shape::uniform);
}

TEST_CASE("bare sizes take the general tolerance by their length in millimetres") {
    // ISO 2768-1:1989, table 1, class m: over 6 to 30 mm +-0.2, over 30 to 120 +-0.3 (from memory;
    // the table is held against its source in tests/published).
    check_limits("12.5", 12.5, 12.3, 12.7, Shape::normal, context(Unit::mm, 'm'));
    check_limits("-12.5", -12.5, -12.7, -12.3, Shape::normal, context(Unit::mm, 'm'));
    check_limits("2", 2, 2 - 0.3 / 25.4, 2 + 0.3 / 25.4, Shape::normal, context(Unit::inch, 'm'));
}

TEST_CASE("exact sizes and the ways to write a number") {
    check_limits("12.5 exact", 12.5, 12.5, 12.5, Shape::exact);
    check_limits("3/8 in exact", 9.525, 9.525, 9.525, Shape::exact);
    check_limits("1 1/2 in exact", 38.1, 38.1, 38.1, Shape::exact);
    check_limits("1-1/2 in exact", 38.1, 38.1, 38.1, Shape::exact);
    check_limits("-1 1/2 in exact", -38.1, -38.1, -38.1, Shape::exact);
    check_limits(".5 exact", 0.5, 0.5, 0.5, Shape::exact);
    check_limits("5. exact", 5, 5, 5, Shape::exact);
    check_limits("1.25e1 exact", 12.5, 12.5, 12.5, Shape::exact);
    check_limits("1e-3 exact", 0.001, 0.001, 0.001, Shape::exact);
    CHECK(size("0.1 exact").nominal == 0.1);
}

TEST_CASE("a unit counts for every number it is meant for") {
    check_limits("0.5 ±0.002 in", 12.7, 12.6492, 12.7508);
    check_limits("0.5 in ±0.002", 12.7, 12.6492, 12.7508);
    check_limits("0.498..0.502 in", 12.7, 12.6492, 12.7508);
    check_limits("12.5 mm ±50 um", 12.5, 12.45, 12.55);
    check_limits("12.5 mm ±50 µm", 12.5, 12.45, 12.55);  // micro sign
    check_limits("12.5 mm ±50 μm", 12.5, 12.45, 12.55);  // Greek mu
    check_limits("12.5mm +50um -20", 12.5, 12.48, 12.55);
    check_limits("12.5 mm -20 um +50 um", 12.5, 12.48, 12.55);
    check_limits("12450..12550 um", 12.5, 12.45, 12.55);
    check_limits("0.5 ±0.002", 0.5, 0.498, 0.502, Shape::normal, context(Unit::inch));
    check_limits("0.5 in ±2 thou", 0.5, 0.498, 0.502, Shape::normal, context(Unit::inch));
    check_limits("500 ±2 thou", 500, 498, 502, Shape::normal, context(Unit::thou));
    check_limits("12.7 ±0.0254 mm", 500, 499, 501, Shape::normal, context(Unit::thou));
    CHECK(size("5 thou exact", context(Unit::inch)).nominal == 0.005);
}
