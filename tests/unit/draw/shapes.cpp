// SPDX-License-Identifier: MIT
// Areas by hand, as rectangles and trapezoids.
#include <doctest/doctest.h>

#include <support/area.hpp>
#include <trialfit/draw/drawing.hpp>
#include <trialfit/draw/section/section.hpp>
#include <trialfit/draw/section/shapes.hpp>

using namespace trialfit;
using draw::straight;

TEST_CASE("two solids that touch become one outline without the edge between them") {
    const auto one = draw::united({straight(0, 10, 5, 8), straight(10, 14, 5, 20)});
    REQUIRE(one.outline.size() == 1);
    CHECK(one.outline.front().size() == 6);
    CHECK(testing::area(one.outline) == doctest::Approx(10 * 3 + 4 * 15));
    CHECK(one.seams.size() >= 1);
}

TEST_CASE("overlapping solids count once, and solids apart stay apart") {
    CHECK(testing::area(draw::united({straight(0, 10, 0, 4), straight(5, 15, 2, 6)}).outline) ==
          doctest::Approx(40 + 40 - 5 * 2));
    CHECK(draw::united({straight(0, 1, 0, 1), straight(2, 3, 0, 1)}).outline.size() == 2);
    CHECK(draw::united({straight(0, 1, 0, 1), straight(0, 1, 2, 3)}).outline.size() == 2);
}

TEST_CASE("a cone that rises out of a cylinder leaves the outer of the two") {
    // From r 8 to r 4 over 8 long; the cylinder of r 6 takes over half way.
    const draw::Solid cone{.z0 = 0, .z1 = 8, .outer0 = 8, .outer1 = 4};
    const auto both = draw::united({cone, straight(0, 12, 0, 6)});
    CHECK(testing::area(both.outline) == doctest::Approx(12 * 6 + 4 * 2 / 2.0));
}

TEST_CASE("what two solids have in common") {
    const auto both = draw::common(straight(0, 10, 2, 6), straight(8, 20, 4, 9));
    REQUIRE(both.size() == 1);
    CHECK(testing::area({draw::loop_of(both.front())}) == doctest::Approx(2 * 2));
    CHECK(draw::common(straight(0, 1, 0, 1), straight(1, 2, 0, 1)).empty());
}

TEST_CASE("a part rests on what it meets and takes along what sits on it") {
    job::Job job;
    job.parts.resize(3);
    job.parts[1].seats.push_back({.against = {0, 0}});
    job.parts[2].seats.push_back({.against = {1, 0}});
    stack::Clearance foul;
    foul.inboard_of.part = 0;
    foul.outboard_of.part = 1;
    foul.gap.nominal = -4.0;
    // The third would foul the first by 1, had the second not already lifted it by 4.
    stack::Clearance carried = foul;
    carried.outboard_of.part = 2;
    carried.gap.nominal = -1.0;
    const auto off = draw::rests(job, {foul, carried});
    CHECK(off == std::vector<double>{0.0, 4.0, 4.0});
}

TEST_CASE("hatch lines stay inside their region and keep their distance") {
    const std::vector<std::vector<draw::Spot>> square{{{0, 0}, {10, 0}, {10, 10}, {0, 10}}};
    const auto lines = draw::hatched(square, {.degrees = 90.0, .pitch = 2.0});
    REQUIRE(lines.size() == 5);
    for (const auto& line : lines) {
        CHECK(line[0].x == doctest::Approx(line[1].x));
        CHECK(std::abs(line[0].y - line[1].y) == doctest::Approx(10.0));
    }
    const std::vector<std::vector<draw::Spot>> holed{square[0], {{4, 0}, {6, 0}, {6, 10}, {4, 10}}};
    for (const auto& line : draw::hatched(holed, {.degrees = 0.0, .pitch = 2.0}))
        CHECK(std::abs(line[0].x - line[1].x) == doctest::Approx(4.0));
}
