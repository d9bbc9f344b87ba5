// SPDX-License-Identifier: MIT
#include <doctest/doctest.h>

#include <nlohmann/json.hpp>
#include <sstream>
#include <trialfit/paper/printed.hpp>
#include <trialfit/paper/text/layout.hpp>
#include <trialfit/paper/timing/text.hpp>
#include <trialfit/paper/timing/words.hpp>

using namespace trialfit;

namespace {

// Made by hand, so that the printer is tested without the timing room. Invented figures.
timing::TimingAnswer with_turn(stack::Verdict verdict) {
    timing::TimingAnswer out;
    out.file = "engine.yaml";
    out.stator_turns = timing::StatorTurns{.earlier = trade::Turning::clockwise,
                                           .later = trade::Turning::anticlockwise};
    out.firing = timing::Firing{};
    out.firing->written = "1.4 mm";
    out.firing->set.degrees = 18.64;
    out.firing->set.height = 1.4;
    out.firing->set.gauge_reading = 1.45;
    out.now = timing::FiresNow{.written = "24.1 deg", .degrees = 24.1, .worst = {24.0, 24.2}};
    out.slot = timing::SlotTravel{};
    timing::Turn turn{.degrees = -5.46, .worst = {-5.6, -5.3}, .arc = 3.33, .free_arc = 3.5};
    turn.verdict = verdict;
    turn.short_arc_worst = verdict == stack::Verdict::holds ? 0.0 : 1.401;
    if (verdict == stack::Verdict::fails) {
        turn.free_arc = 2.0;
        turn.short_arc = 1.331;
        turn.furthest_deg = 20.8;
    }
    out.slot->turn = turn;
    out.verdict = verdict;
    return out;
}

TEST_CASE("the first line is the answer in plain words") {
    CHECK(paper::timing_headline(with_turn(stack::Verdict::holds)) ==
          "The slot reaches: to fire at 18.6 degrees BTDC the stator must turn 5.5 degrees "
          "anticlockwise, seen from outboard (3.33 mm at the slot), and the slot lets it 3.50 mm.");
    CHECK(paper::timing_headline(with_turn(stack::Verdict::doubtful)) ==
          "The slot may be too short: to fire at 18.6 degrees BTDC the stator must turn 5.5 "
          "degrees anticlockwise, seen from outboard (3.33 mm at the slot) and the slot lets it "
          "3.50 mm, but in "
          "the worst case 1.41 mm are missing.");
    CHECK(paper::timing_headline(with_turn(stack::Verdict::fails)) ==
          "The slot is too short: to fire at 18.6 degrees BTDC the stator must turn 5.5 degrees "
          "anticlockwise, seen from outboard (3.33 mm at the slot), the slot lets it 2.00 mm, and "
          "1.34 mm are "
          "missing. At its end it fires at 20.8 degrees BTDC.");
    timing::TimingAnswer answer = with_turn(stack::Verdict::holds);
    answer.slot.reset();
    CHECK(paper::timing_headline(answer) ==
          "Fire at 18.6 degrees BTDC (before the top), where the piston stands 1.40 mm below its "
          "top and a "
          "gauge in the plug hole reads 1.45 mm.");
    answer.firing.reset();
    CHECK(paper::timing_headline(answer) ==
          "No firing point is asked for ('fire_at'): here is what the other figures tell.");
}

TEST_CASE("a worst case on both sides of where it fires now is told with its sides") {
    timing::TimingAnswer answer = with_turn(stack::Verdict::holds);
    timing::Turn& turn = *answer.slot->turn;
    turn.degrees = -0.2;
    turn.worst = {-0.7, 0.3};
    const auto text = [&answer] { return paper::timing_text(answer, {.width = 400}); };
    CHECK(text().find("later: 0.20 deg, 0.30 earlier to 0.70 later in the worst case") !=
          std::string::npos);
    turn.degrees = 0.0;
    CHECK(text().find("the stator can stay where it is") != std::string::npos);
    CHECK(text().find("earlier: 0.00 deg, 0.70 later to 0.30 earlier in the worst case") !=
          std::string::npos);
    turn.worst = {0.1, 0.3};
    turn.degrees = 0.2;
    CHECK(text().find("earlier: 0.20 deg, 0.10 to 0.30 in the worst case") != std::string::npos);
    turn.degrees = -0.2;
    turn.worst = {-0.7, 0.3};
    turn.verdict = stack::Verdict::doubtful;
    turn.short_arc_worst = 0.2;
    turn.short_earlier = true;
    CHECK(paper::timing_headline(answer).find("0.20 mm are missing on the other side, to advance "
                                              "it.") != std::string::npos);
}

TEST_CASE(
    "a setting without a gauge says so, and no straight line is told where the piston stands") {
    timing::TimingAnswer answer = with_turn(stack::Verdict::holds);
    timing::Firing& firing = *answer.firing;
    firing.set.height_per_deg = 0.148;
    const auto text = [&answer] { return paper::timing_text(answer, {.width = 400}); };
    CHECK(text().find("by RSS, without the gauge's own error") != std::string::npos);
    CHECK(text().find("0.07 deg here") != std::string::npos);
    firing.gauge = "dial";
    CHECK(text().find("gauge's own error") == std::string::npos);
    // A degree before the top 0.01 mm would be 1.2 degrees by the slope there, past the top.
    firing.set.degrees = 1.0;
    firing.set.height_per_deg = 0.0082;
    CHECK(text().find("deg here") == std::string::npos);
}

TEST_CASE("where the shaft's turning is not known, the stator turns with or against it") {
    timing::TimingAnswer answer;
    CHECK(paper::stator_turn(answer, 2.0) == "2.0 degrees against the shaft's turning");
    CHECK(paper::stator_turn(answer, -2.0) == "2.0 degrees with the shaft's turning");
    CHECK(paper::crank_place(-3.0) == "3.0 degrees ATDC");
    CHECK(paper::crank_place(0.01) == "the top");
}

TEST_CASE("no line is wider than the style, and plain style has no escapes") {
    timing::TimingAnswer answer = with_turn(stack::Verdict::fails);
    answer.title = std::string(300, 'x') + "\x1b[31m";
    answer.notes = {timing::ReadByOther{.gauge = std::string(100, 'g')},
                    timing::Remark::no_direction};
    for (const std::size_t width : {40U, 80U}) {
        const std::string text = paper::timing_text(answer, {.colour = false, .width = width});
        CHECK(text.find('\x1b') == std::string::npos);
        std::istringstream lines(text);
        for (std::string line; std::getline(lines, line);) {
            CAPTURE(line);
            CHECK(paper::columns(line) <= width);
        }
    }
}

TEST_CASE("what the job says nothing about is null, never missing") {
    const auto json = nlohmann::json::parse(paper::timing_json(timing::TimingAnswer{}));
    CHECK(json.at("trialfit") == 1);
    CHECK(json.at("verdict") == "holds");
    for (const char* key : {"firing", "now", "slot", "stator_turns"})
        CHECK(json.at(key).is_null());
    const auto whole = nlohmann::json::parse(paper::timing_json(with_turn(stack::Verdict::fails)));
    CHECK(whole.at("slot").at("turn").at("earlier_deg") == -5.46);
    CHECK(whole.at("slot").at("turn").at("verdict") == "fails");
}

}  // namespace
