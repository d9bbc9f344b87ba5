// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include "support.hpp"

using namespace trialfit;

namespace {

// Line 3 begins the section; `more` follows a stroke of 50 and a rod of 90.
std::string job_with(const std::string& more, const std::string& engine = "{}") {
    const std::string section = engine == "{}" ? "timing:\n  stroke: 50\n  rod: 90\n" : engine;
    return "trialfit: 1\nparts: [{part: case, faces: {floor: zero}}]\n" + section + more;
}

job::Timing timing_of(const std::string& more) {
    return *test::read("gauges: {dial: 0.01}\n" + job_with(more)).timing;
}

TEST_CASE("an angle is read in every form, and in no other") {
    for (const char* text : {"15", "15 deg", "15deg", "15.0 exact"}) {
        CAPTURE(text);
        if (std::string(text) == "15.0 exact") {
            CHECK(test::complaints(job_with("  plug_tilt: 15.0 exact\n")) ==
                  "6:14: error: the tilt of the plug is '15.0 exact'; write it like '15 deg' or "
                  "'15 ±2 deg'\n");
            continue;
        }
        const job::Timing timing = timing_of(fmt::format("  plug_tilt: {}\n", text));
        REQUIRE(timing.plug_tilt);
        CHECK(timing.plug_tilt->size == quantity::exact(15.0));
        CHECK(timing.plug_tilt->written == text);
    }
    for (const char* text : {"15 ±2", "15 ±2 deg", "15 deg ±2", "15 deg ±2 deg", "13..17 deg"}) {
        CAPTURE(text);
        const quantity::Size tilt =
            timing_of(fmt::format("  plug_tilt: {}\n", text)).plug_tilt->size;
        CHECK(tilt.lower == 13.0);
        CHECK(tilt.upper == 17.0);
    }
    CHECK(test::complaints(job_with("  plug_tilt: 15 mm\n")) ==
          "6:14: error: the tilt of the plug is '15 mm'; write it like '15 deg' or '15 ±2 deg'\n");
    CHECK(test::complaints(job_with("  plug_tilt: 88 ±2 deg\n")) ==
          "6:14: error: the tilt of the plug is '88 ±2 deg'; it is less than 90 degrees\n");
    CHECK(test::complaints(job_with("  plug_tilt: [15]\n")) ==
          "6:14: error: the tilt of the plug is not an angle; write it like '15 deg' or '15 ±2 "
          "deg'\n");
}

TEST_CASE("a firing point is an angle where it says deg, else a height") {
    const job::Timing angle = timing_of("  fire_at: 17 deg ±1\n");
    CHECK(angle.fire_at->in == job::AngleIn::degrees);
    CHECK(angle.fire_at->value.size.upper == 18.0);
    const job::Timing height = timing_of("  fire_at: 1.4 mm ±0.05\n  fires_now: 1.9 by dial\n");
    CHECK(height.fire_at->in == job::AngleIn::length);
    CHECK(height.fire_at->value.size.nominal == 1.4);
    CHECK(height.fires_now->value.gauge == 0);
    CHECK(test::complaints(job_with("  fire_at: 190 deg\n")) ==
          "6:12: error: 'fire_at' is '190 deg'; it is an angle before top dead centre, at most 180 "
          "degrees\n");
    CHECK(test::complaints(job_with("  fire_at: 1.4\n")) ==
          "6:12: error: 'fire_at' is '1.4', which may be a length or an angle; write '1.4 mm' or "
          "'1.4 deg'\n");
    CHECK(test::complaints(job_with("  fires_now: -0.2 mm\n")) ==
          "6:14: error: 'fires_now' is '-0.2 mm'; it cannot be less than 0\n");
}

TEST_CASE("an engine that cannot turn over is refused") {
    CHECK(
        test::complaints(job_with("", "timing: {stroke: 50, rod: 26, pin_offset: -0.5 ±0.6}\n")) ==
        "3:27: error: the rod, '26', is no longer than half the stroke, '50', plus the offset, "
        "'-0.5 ±0.6'; the rod is measured between the centres of its two eyes\n");
    CHECK(test::complaints(job_with("", "timing: {stroke: 50 ±1, rod: 25.4}\n")) ==
          "3:30: error: the rod, '25.4', is no longer than half the stroke, '50 ±1'; the rod is "
          "measured between the centres of its two eyes\n");
    CHECK(test::complaints(job_with("  fire_at: 50.1 mm\n")) ==
          "6:12: error: 'fire_at' is '50.1 mm', more than the stroke, '50'; it is how far the "
          "piston stands below its top\n");
}

TEST_CASE("wheel readings are raised to follow each other within a turn") {
    const job::Timing timing = timing_of(
        "  stops: {before: 330 deg, after: 30, wheel: 0.5 deg, holds: ±0.02}\n"
        "  dwell: {from: 358.5, to: 1, wheel: 0.5}\n");
    CHECK(timing.stops->before_deg == 330.0);
    CHECK(timing.stops->after_deg == 390.0);
    CHECK(timing.stops->wheel_deg == 0.5);
    CHECK(timing.stops->holds == 0.02);
    CHECK(timing.dwell->from_deg == 358.5);
    CHECK(timing.dwell->to_deg == doctest::Approx(361.0));
    CHECK(test::complaints(job_with("  stops: {before: 30, after: 390, wheel: 0.5}\n")) ==
          "6:30: error: 'before' and 'after' are the same reading; read the wheel where the piston "
          "meets the stop before the top, and again after it\n");
    CHECK(test::complaints(job_with("  stops: {before: 30, after: 90}\n")) ==
          "6:10: error: 'stops' has no 'wheel'; add 'wheel: ANGLE'\n");
    CHECK(test::complaints(job_with("  dwell: {from: 2, to: 1, wheel: 0.5}\n")) ==
          "6:24: error: the dwell is more than half a turn; 'from' is the reading where the gauge "
          "stops rising, 'to' where it begins to fall\n");
}

TEST_CASE("marks and the slot are held to what they stand on") {
    CHECK(test::complaints(job_with("  marks: [{mark: S, at: 13.8 mm}]\n")) ==
          "6:25: error: a mark is given as an arc, and 'rim_dia' is not given; add 'rim_dia: SIZE' "
          "to "
          "'timing', or give the mark in degrees\n");
    CHECK(test::complaints(job_with("  marks: [{mark: S, at: 17 deg}, {mark: S, at: 2 deg}]\n")) ==
          "6:34: error: there are two marks named 'S'; the first is in line 6; give one of them "
          "another name\n");
    CHECK(test::complaints(job_with("  slot: {dia: 70, length: 5, screw: 5}\n")) ==
          "6:37: error: the screw, '5', fills the slot, '5'; 'length' is the slot's from end to "
          "end; leave 'screw' out where it is the travel\n");
    CHECK(
        test::complaints(job_with("  slot: {dia: 70, length: 12, screw: 5, free_earlier: 8}\n")) ==
        "6:55: error: 'free_earlier' is '8', more than the screw can travel; the whole travel is "
        "7\n");
    CHECK(test::complaints(job_with("  slot: {dia: 0, length: 12}\n")) ==
          "6:15: error: the diameter that the slot lies on is '0'; it must be greater than 0\n");
}

TEST_CASE("a curve stands on the top, on fire_at or on a curve before it") {
    const job::Timing timing = timing_of(
        "  fire_at: 17 deg\n"
        "  curves:\n"
        "    - {curve: stock, points: [[1000, 20]]}\n"
        "    - {curve: box, on: fire_at, points: [[1000, 0], [6000, -8]]}\n"
        "    - {curve: trim, on: box, points: [[1000, 1]]}\n");
    REQUIRE(timing.curves.size() == 3);
    CHECK(timing.curves[0].on == job::CurveOn::top);
    CHECK(timing.curves[1].on == job::CurveOn::fire_at);
    CHECK(timing.curves[2].on == job::CurveOn::curve);
    CHECK(timing.curves[2].on_curve == 1);
    const auto refused = [](const char* curve) {
        return test::complaints(job_with(fmt::format("  curves: [{}]\n", curve)));
    };
    CHECK(refused("{curve: a, points: [[1000, 5], [1000, 6]]}") ==
          "6:44: error: the speed '1000' does not rise above the one before; list the points by "
          "rising speed\n");
    CHECK(refused("{curve: box, on: fire_at, points: [[1, 5]]}") ==
          "6:29: error: this curve adds to 'fire_at', which is not given; add 'fire_at: ANGLE' to "
          "'timing', or leave 'counts_from' out for a curve counted from the top\n");
    CHECK(refused("{curve: box, points: [[1, 5]]}, {curve: c, on: bxo, points: [[1, 5]]}") ==
          "6:59: error: no curve before this one is called 'bxo'; did you mean 'box'?\n");
    CHECK(refused("{curve: c, on: c, points: [[1, 5]]}") ==
          "6:27: error: no curve before this one is called 'c'; a curve counts from 'top', from "
          "'fire_at' "
          "or from a curve listed before it\n");
    CHECK(
        refused("{curve: top, points: [[1, 5]]}") ==
        "6:12: error: a curve cannot be called 'top'; that is what a curve may count from; give it "
        "another name\n");
    CHECK(
        refused("{curve: c, points: []}") ==
        "6:31: error: 'points' is an empty list; write it like '[[1000, 25], [4000, 17]]', or take "
        "it away\n");
}

}  // namespace
