// SPDX-License-Identifier: MIT
#include <doctest/doctest.h>

#include <numbers>
#include <trialfit/trade/engine/timing_marks.hpp>

using namespace trialfit::trade;

namespace {

TEST_CASE("an arc is longer than its chord, and leads back to the angle") {
    for (const double degrees : {0.5, 10.0, 90.0, 179.0}) {
        const MarkOffset mark = mark_offset(100, degrees);
        CHECK(mark.arc > mark.chord);
        CHECK(degrees_of_arc(100, mark.arc) == doctest::Approx(degrees).epsilon(1e-13));
        CHECK(mark_offset(100, -degrees).arc == -mark.arc);
    }
    CHECK(mark_offset(100, 180).chord == doctest::Approx(100));
    CHECK(mark_offset(100, 360).arc == doctest::Approx(100 * std::numbers::pi));
}

TEST_CASE("earlier is against the shaft") {
    CHECK(stator_turn_for_earlier(Turning::clockwise) == Turning::anticlockwise);
    CHECK(stator_turn_for_earlier(Turning::anticlockwise) == Turning::clockwise);
    CHECK(stator_turn_for_later(Turning::clockwise) == Turning::clockwise);
}

TEST_CASE("the nearest of several marks, round the turn") {
    const NearestMark mark = *nearest_mark({20, 355, 120}, 2);
    CHECK(mark.index == 1);
    CHECK(mark.off_deg == doctest::Approx(-7));
    CHECK(nearest_mark({-18, 18}, 0)->index == 0);
    CHECK(nearest_mark({}, 0).reason() == "no marks are given");
}

}  // namespace
