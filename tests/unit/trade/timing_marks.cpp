// SPDX-License-Identifier: MIT
#include <doctest/doctest.h>

#include <numbers>
#include <trialfit/trade/engine/timing_marks.hpp>

using namespace trialfit::trade;

namespace {

TEST_CASE("an arc is longer than its chord, and both lead back to the angle") {
    for (const double degrees : {0.5, 10.0, 90.0, 179.0}) {
        const MarkOffset mark = mark_offset(100, degrees);
        CHECK(mark.arc > mark.chord);
        CHECK(degrees_of_arc(100, mark.arc) == doctest::Approx(degrees).epsilon(1e-13));
        CHECK(*degrees_of_chord(100, mark.chord) == doctest::Approx(degrees).epsilon(1e-12));
        CHECK(mark_offset(100, -degrees).arc == -mark.arc);
    }
    CHECK(mark_offset(100, 180).chord == doctest::Approx(100));
    CHECK(mark_offset(100, 360).arc == doctest::Approx(100 * std::numbers::pi));
    CHECK(degrees_of_chord(100, 101).reason() == "chord must lie between -100 and 100, not 101");
}

TEST_CASE("earlier is against the shaft") {
    CHECK(stator_turn_for_earlier(Turning::clockwise) == Turning::anticlockwise);
    CHECK(stator_turn_for_earlier(Turning::anticlockwise) == Turning::clockwise);
    CHECK(stator_turn_for_later(Turning::clockwise) == Turning::clockwise);
}

TEST_CASE("a slot reaches as far as its screw is free") {
    const Slot slot{60, 15, 5};
    const SlotReach enough = *slot_reach(slot, -9, 0.5);
    CHECK(enough.free_arc == doctest::Approx(5));
    CHECK(enough.needed_arc == doctest::Approx(60 * std::numbers::pi * 9 / 360));
    CHECK(enough.reaches);
    CHECK(enough.short_arc == 0.0);
    const SlotReach not_enough = *slot_reach(slot, 12, 0.5);
    CHECK_FALSE(not_enough.reaches);
    CHECK(not_enough.needed_deg > not_enough.free_deg);
    CHECK(not_enough.short_arc == doctest::Approx(60 * std::numbers::pi * 12 / 360 - 5));
    CHECK(slot_reach(slot, 12, 1.0)->reaches);
    CHECK_FALSE(slot_reach(slot, 0.1, 0.0)->reaches);
    CHECK(slot_reach({60, 5, 5}, 1, 0.5).reason() ==
          "length of the slot (5) must be greater than screw diameter (5)");
    CHECK_FALSE(slot_reach(slot, 1, 1.5).ok());
}

TEST_CASE("the nearest of several marks, round the turn") {
    const NearestMark mark = *nearest_mark({20, 355, 120}, 2);
    CHECK(mark.index == 1);
    CHECK(mark.off_deg == doctest::Approx(-7));
    CHECK(nearest_mark({-18, 18}, 0)->index == 0);
    CHECK(nearest_mark({}, 0).reason() == "no marks are given");
}

}  // namespace
