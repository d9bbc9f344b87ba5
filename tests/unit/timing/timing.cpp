// SPDX-License-Identifier: MIT
#include <doctest/doctest.h>

#include <cmath>
#include <numbers>
#include <trialfit/trade/engine/crank_slider.hpp>

#include "engine_job.hpp"

using namespace trialfit;
using namespace trialfit::testing;
using stack::Verdict;

namespace {

constexpr double kPi = std::numbers::pi;

TEST_CASE("a job without the section is told how to add one") {
    const auto outcome = timing::timing(job::Job{});
    const auto& complaints = std::get<job::Complaints>(outcome);
    REQUIRE(complaints.size() == 1);
    CHECK(complaints[0].fault == "the job has no 'timing' section");
    CHECK(complaints[0].mend == "add one: 'timing: {stroke: SIZE, rod: SIZE, fire_at: SIZE}'");
}

TEST_CASE("height to angle and back, over a grid of engines") {
    for (const double stroke : {30.0, 43.0, 68.0})
        for (const double ratio : {1.6, 2.0, 2.4})
            for (const double offset : {-0.8, 0.0, 0.8})
                for (const double wanted_deg : {0.5, 5.0, 17.0, 40.0}) {
                    CAPTURE(stroke);
                    CAPTURE(offset);
                    job::Job job = engine();
                    job.timing->stroke = exactly(stroke);
                    job.timing->rod = exactly(stroke * ratio);
                    job.timing->pin_offset = exactly(offset);
                    job.timing->fire_at = degrees(exactly(wanted_deg));
                    const double there = answer(job).firing->set.height;
                    job.timing->fire_at = height(exactly(there));
                    const double back = answer(job).firing->set.degrees;
                    CHECK(std::abs(back - wanted_deg) <= 1e-12 * std::max(1.0, wanted_deg));
                }
}

TEST_CASE("a gauge's own reading is along the tilted plug hole, a height along the bore") {
    job::Job job = engine();
    job.timing->plug_tilt = exactly(60.0);
    job.timing->fire_at = height(exactly(1.4));
    CHECK(answer(job).firing->set.gauge_reading == doctest::Approx(2.8).epsilon(1e-12));
    CHECK(answer(job).firing->set.height == doctest::Approx(1.4).epsilon(1e-12));
    job.timing->fires_now =
        height({.size = quantity::reading(2.8, 0.01), .written = "2.8 by dial", .gauge = 0});
    CHECK(answer(job).now->height == doctest::Approx(1.4).epsilon(1e-12));
    job.timing->fires_now = height(exactly(1.4));
    CHECK(answer(job).now->height == doctest::Approx(1.4).epsilon(1e-12));
}

TEST_CASE("the doubt is shared out among the sizes that have any, biggest first") {
    job::Job job = engine();
    job.timing->stroke = about(43.0, 0.05);
    job.timing->plug_tilt = about(15.0, 1.0);
    job.timing->fire_at = height(about(1.4, 0.05));
    const timing::Firing firing = *answer(job).firing;
    REQUIRE(firing.set.shares.size() == 3);
    CHECK(firing.set.shares[0].of == "dial");
    CHECK(firing.set.shares[1].of == "plug_tilt");
    CHECK(firing.set.shares[2].of == "stroke");
    double worst = 0.0;
    double variance = 0.0;
    double squares = 0.0;
    for (const timing::Share& share : firing.set.shares) {
        worst += share.worst_share;
        variance += share.variance_share;
        squares += share.half_width_deg * share.half_width_deg;
    }
    CHECK(worst == doctest::Approx(1.0));
    CHECK(variance == doctest::Approx(1.0));
    CHECK(firing.set.rss.hi - firing.set.degrees == doctest::Approx(std::sqrt(squares)));
    CHECK(firing.set.worst.lo < firing.set.rss.lo);
    CHECK(firing.set.worst.hi > firing.set.rss.hi);
}

TEST_CASE("limits asked for are held to what the gauge can do") {
    job::Job job = engine();
    job.timing->fire_at = height(about(1.4, 0.05));
    CHECK(*answer(job).firing->gauge_keeps_it == Verdict::holds);
    job.timing->fire_at = height(about(1.4, 0.005));
    CHECK(*answer(job).firing->gauge_keeps_it == Verdict::doubtful);
    job.timing->fire_at =
        height({.size = quantity::toleranced(1.4, 0.05, 0.1), .written = "1.4 +0.1 +0.05"});
    CHECK(*answer(job).firing->gauge_keeps_it == Verdict::fails);
    job.timing->fire_at = degrees(about(18.64, 0.3));
    const timing::Firing firing = *answer(job).firing;
    CHECK(*firing.gauge_keeps_it == Verdict::holds);
    CHECK(firing.allowed_deg == stack::Range{18.34, 18.94});
    CHECK(firing.allowed_height->lo ==
          doctest::Approx(trade::piston_drop(*trade::crank_of(43, 87), -18.34)));
    job.timing->gauge.reset();
    CHECK_FALSE(answer(job).firing->gauge_keeps_it);
    job.timing->fire_at = height(exactly(1.4));
    CHECK_FALSE(answer(job).firing->allowed_deg);
}

TEST_CASE("a stop's own half-width counts before the gauge's") {
    job::Job job = engine();
    job.timing->stops =
        job::StopReadings{.before_deg = 313.5, .after_deg = 407.5, .wheel_deg = 0.5};
    CHECK(answer(job).top.by_stops->holds == 0.01);
    CHECK(answer(job).top.by_stops->top_deg == doctest::Approx(360.5));
    job.timing->stops->holds = 0.0;
    const timing::FoundTop top = *answer(job).top.by_stops;
    CHECK(top.worst_deg == doctest::Approx(0.5));
    CHECK(top.set_worst_deg == doctest::Approx(1.0));
    CHECK(top.sd_deg == doctest::Approx(0.5 / std::sqrt(6.0)));
}

TEST_CASE("the top by dwell lies between its readings") {
    job::Job job = engine();
    job.timing->dwell = job::DwellReadings{.from_deg = 358.0, .to_deg = 363.0, .wheel_deg = 0.5};
    const timing::FoundTop top = *answer(job).top.by_dwell;
    CHECK(top.top_deg == doctest::Approx(360.5));
    CHECK(top.worst_deg == doctest::Approx(3.0));
    CHECK(top.sd_deg == doctest::Approx(std::hypot(2.5 / std::sqrt(3.0), 0.5 / std::sqrt(6.0))));
    job.timing->dwell->to_deg = 358.0;
    CHECK(answer(job).top.by_dwell->worst_deg == doctest::Approx(0.5));
}

TEST_CASE("without a gauge two customary ones are shown, in the file's unit") {
    job::Job job = engine();
    job.units = quantity::Unit::inch;
    job.timing->gauge.reset();
    const auto gauges = answer(job).top.gauges;
    REQUIRE(gauges.size() == 2);
    CHECK(gauges[0].half_width == doctest::Approx(0.01 / 25.4));
    CHECK(gauges[1].before_deg > gauges[0].before_deg);
}

TEST_CASE("marks: laid off as arc and chord, and the found ones told apart") {
    job::Job job = engine();
    job.timing->rim_dia = exactly(90.0);
    job.timing->fire_at = degrees(about(20.0, 1.0));
    const auto mark = [&job](const char* name, const job::AngleGiven& angle) {
        job.timing->marks.push_back({.name = name, .angle = angle});
    };
    mark("far", degrees(about(25.0, 0.5)));
    mark("arc", height(about(45.0 * 20.5 * kPi / 180.0, 0.1)));
    mark("mirrored", degrees(exactly(340.5)));
    mark("round", degrees(exactly(380.9)));
    const timing::Marks marks = answer(job).marks;
    CHECK(marks.rim->firing->arc == doctest::Approx(45.0 * 20.0 * kPi / 180.0));
    CHECK(marks.rim->firing->chord == doctest::Approx(90.0 * std::sin(10.0 * kPi / 180.0)));
    CHECK(marks.rim->one_degree.arc == doctest::Approx(90.0 * kPi / 360.0));
    REQUIRE(marks.found.size() == 4);
    CHECK(marks.found[0].off_deg == doctest::Approx(5.0));
    CHECK_FALSE(marks.found[0].fits);
    CHECK(marks.found[1].degrees == doctest::Approx(20.5));
    CHECK(marks.found[1].fits);
    CHECK(marks.found[2].off_deg == doctest::Approx(-39.5));
    CHECK_FALSE(marks.found[2].fits);
    CHECK(marks.found[2].fits_turned_round);
    CHECK(marks.found[3].off_deg == doctest::Approx(0.9));
    CHECK(marks.found[3].fits);
    CHECK(marks.nearest == 1);
    job.timing->fire_at.reset();
    CHECK(answer(job).marks.found.empty());
}

// Slot on a circle where one degree is one millimetre of arc.
job::Job with_slot(double wanted_deg, double now_deg) {
    job::Job job = engine();
    job.timing->turns = trade::Turning::clockwise;
    job.timing->fire_at = degrees(exactly(wanted_deg));
    job.timing->fires_now = degrees(about(now_deg, 1.0));
    job.timing->slot = job::Slot{.dia = exactly(360.0 / kPi), .length = exactly(12.0)};
    return job;
}

TEST_CASE("an RSS ends where the worst case does, however near the top") {
    job::Job job = engine();
    for (const double wanted : {0.3, 1.0, 2.0, 5.0}) {
        job.timing->fire_at = degrees(exactly(wanted));
        const timing::CrankPoint set = answer(job).firing->set;
        CAPTURE(wanted);
        CHECK(set.worst.lo >= 0.0);
        CHECK(set.rss.lo >= set.worst.lo);
        CHECK(set.rss.hi <= set.worst.hi);
    }
}

TEST_CASE("the stator turns against the shaft for earlier, with it for later") {
    const timing::TimingAnswer earlier = answer(with_slot(20.0, 17.0));
    CHECK(earlier.stator_turns->earlier == trade::Turning::anticlockwise);
    CHECK(earlier.stator_turns->later == trade::Turning::clockwise);
    CHECK(earlier.slot->turn->degrees == doctest::Approx(3.0));
    CHECK(earlier.slot->turn->worst.hi == doctest::Approx(4.0));
    CHECK(answer(with_slot(17.0, 20.0)).slot->turn->degrees == doctest::Approx(-3.0));
}

TEST_CASE("a slot holds in the worst case, is doubtful or fails, with what is missing") {
    const auto turn = [](const job::Job& job) { return *answer(job).slot->turn; };
    CHECK(turn(with_slot(20.0, 15.5)).verdict == Verdict::holds);
    const timing::Turn doubtful = turn(with_slot(20.0, 14.5));
    CHECK(doubtful.verdict == Verdict::doubtful);
    CHECK(doubtful.short_arc == 0.0);
    CHECK(doubtful.short_arc_worst == doctest::Approx(0.5));
    const timing::Turn fails = turn(with_slot(20.0, 13.0));
    CHECK(fails.verdict == Verdict::fails);
    CHECK(fails.short_arc == doctest::Approx(1.0));
    CHECK(fails.short_arc_worst == doctest::Approx(2.0));
    CHECK(fails.furthest_deg == doctest::Approx(19.0));
    CHECK(fails.short_earlier);
    CHECK(answer(with_slot(20.0, 13.0)).verdict == Verdict::fails);

    // It fires 0.2 degrees too early, give or take 1: the worst case may ask to advance it.
    job::Job both_ways = with_slot(20.0, 20.2);
    both_ways.timing->slot->free_earlier = exactly(0.5);
    const timing::Turn other_way = turn(both_ways);
    CHECK(other_way.degrees < 0.0);
    CHECK(other_way.verdict == Verdict::doubtful);
    CHECK(other_way.short_arc_worst == doctest::Approx(0.3));
    CHECK(other_way.short_earlier);
}

TEST_CASE("the screw fills its slot, and need not stand in the middle") {
    job::Job job = with_slot(20.0, 17.0);
    job.timing->slot->screw = about(5.0, 0.1);
    job.timing->slot->free_earlier = about(6.0, 0.2);
    const timing::SlotTravel slot = *answer(job).slot;
    CHECK(slot.earlier.arc == doctest::Approx(6.0));
    CHECK(slot.later.arc == doctest::Approx(1.0));
    CHECK(slot.earlier.least_deg == doctest::Approx(5.8));
    CHECK(slot.later.least_deg == doctest::Approx(12.0 - 5.1 - 6.2));
    CHECK_FALSE(slot.from_middle);
    CHECK(slot.turn->verdict == Verdict::holds);
    job.timing->fires_now.reset();
    CHECK_FALSE(answer(job).slot->turn);
    CHECK(answer(job).verdict == Verdict::not_judged);
    CHECK(answer(job).not_judged == std::vector{timing::NotJudged::slot_without_fires_now});
    job.timing->slot.reset();
    CHECK(answer(job).verdict == Verdict::holds);
}

TEST_CASE("a slot whose screw stands nobody knows where is not judged") {
    job::Job job = with_slot(20.0, 19.0);
    CHECK(answer(job).slot->turn->verdict == Verdict::holds);
    CHECK(answer(job).verdict == Verdict::not_judged);
    job.timing->slot->free_earlier = exactly(6.0);
    CHECK(answer(job).verdict == Verdict::holds);
}

TEST_CASE("the doubt belongs to the gauge that read the firing point") {
    job::Job job = engine();
    job.gauges = {{.name = "dial", .half_width = 0.01},
                  {.name = "depth_gauge", .half_width = 0.05}};
    job.timing->gauge = 0;
    job.timing->fire_at = job::AngleGiven{.value = about(1.4, 0.05)};
    job.timing->fire_at->value.gauge = 1;
    const timing::TimingAnswer read = answer(job);
    CHECK(read.firing->gauge == "depth_gauge");
    CHECK(read.firing->gauge_half_width == 0.05);
    CHECK(read.firing->set.shares.at(0).of == "depth_gauge");
    const double wide = read.firing->set.shares.at(0).half_width_deg;
    job.timing->fire_at->value.gauge = 0;
    job.timing->fire_at->value.size = about(1.4, 0.01).size;
    const timing::TimingAnswer finer = answer(job);
    CHECK(finer.firing->gauge == "dial");
    CHECK(finer.firing->set.shares.at(0).half_width_deg ==
          doctest::Approx(wide / 5.0).epsilon(0.01));
}

TEST_CASE("limits that the gauge may leave are in the verdict") {
    job::Job job = engine();
    job.gauges = {{.name = "dial", .half_width = 0.01}};
    job.timing->gauge.reset();
    job.timing->fire_at = job::AngleGiven{.value = about(1.4, 0.05)};
    CHECK(answer(job).verdict == Verdict::not_judged);
    job.timing->gauge = 0;
    CHECK(answer(job).verdict == Verdict::holds);
    job.gauges[0].half_width = 0.06;
    CHECK(answer(job).verdict == Verdict::doubtful);
}

TEST_CASE("curves add up as they stand on each other, and settings are compared") {
    job::Job job = engine();
    job.timing->fire_at = degrees(exactly(18.0));
    job.timing->curves = {
        {.name = "points", .points = {{1000, 15}, {3000, 25}}},
        {.name = "box", .points = {{0, 0}, {6000, -6}}, .on = job::CurveOn::fire_at},
        {.name = "trim", .points = {{3000, 1}}, .on = job::CurveOn::curve, .on_curve = 1}};
    const timing::TimingAnswer found = answer(job);
    REQUIRE(found.settings.size() == 2);
    CHECK(found.settings[0].adds_up == std::vector<std::string>{"points"});
    CHECK(found.settings[1].adds_up == std::vector<std::string>{"fire_at", "box", "trim"});
    REQUIRE(found.settings[0].sparks.size() == 4);
    CHECK_FALSE(found.settings[0].sparks[0].milliseconds);
    CHECK(found.settings[1].sparks[1].degrees == doctest::Approx(18.0 - 1.0 + 1.0));
    const timing::Spark& at_3000 = found.settings[1].sparks[2];
    CHECK(at_3000.degrees == doctest::Approx(18.0 - 3.0 + 1.0));
    CHECK(*at_3000.milliseconds == doctest::Approx(16.0 / (6.0 * 3000.0) * 1e3));
    CHECK(at_3000.height == doctest::Approx(trade::piston_drop(*trade::crank_of(43, 87), -16.0)));
    CHECK_FALSE(found.settings[0].sparks[3].covered);
    REQUIRE(found.comparisons.size() == 1);
    CHECK(found.comparisons[0].other == "trim");
    CHECK(found.comparisons[0].rows[2].more_deg == doctest::Approx(16.0 - 25.0));
    CHECK(*found.comparisons[0].rows[2].more_milliseconds ==
          doctest::Approx(-9.0 / (6.0 * 3000.0) * 1e3));
}

TEST_CASE("what a figure has no answer for is complained of at its place") {
    job::Job job = engine();
    job.timing->fire_at = height(exactly(44.0));
    job.timing->fire_at->value.at = {.line = 7, .column = 12};
    const auto outcome = timing::timing(job);
    const auto& complaints = std::get<job::Complaints>(outcome);
    REQUIRE(complaints.size() == 1);
    CHECK(complaints[0].at == job::Place{.line = 7, .column = 12});
    CHECK(complaints[0].fault ==
          "a piston height of 44 below the top lies beyond the stroke of 43");
}

}  // namespace
