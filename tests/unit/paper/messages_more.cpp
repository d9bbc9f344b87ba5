// SPDX-License-Identifier: MIT
// As messages.cpp, for seat, timing, odds, plan and survey.
#include <doctest/doctest.h>

#include <string>
#include <trialfit/paper/words/words.hpp>

namespace {

using namespace trialfit;
using paper::words;

std::string unjudged(seat::NotJudged message) {
    return words(message);
}

std::string seat_noted(seat::Note note) {
    return words(note);
}

std::string plan_noted(plan::Note note) {
    return words(note);
}

std::string timing_noted(timing::Note note) {
    return words(note);
}

}  // namespace

TEST_CASE("what a seat does not judge") {
    using Why = seat::HubNotJudged::Why;
    CHECK(unjudged(seat::NotStated::nut_torque) ==
          "what the nut's torque does: 'seat' states no 'nut_torque'; take the engine maker's");
    CHECK(unjudged(seat::NotStated::needed_torque) ==
          "whether the cone holds enough: 'seat' states neither 'engine_torque' nor "
          "'crank_acceleration'");
    CHECK(unjudged(seat::NotStated::draw_up_materials) ==
          "how far the nut draws the hub home: the materials of hub and shaft are not known");
    CHECK(unjudged(seat::NotStated::spinning_material) ==
          "hoop stress at 'speed': no ring that turns with the hub has a material");
    CHECK(unjudged(seat::FrictionNotStated{stack::DrawUpLacks::under_nut_friction}) ==
          "whether it holds at the friction that there is: 'seat' states no 'under_nut_friction'");
    CHECK(unjudged(seat::NeededInPart{{.part = "nut"}}) ==
          "what 'crank_acceleration' asks of the cone: 'nut' has no material of known density");
    CHECK(unjudged(seat::HubNotJudged{.hub = "rotor", .why = Why::no_ring_round_cone}) ==
          "stress in 'rotor': no ring of it lies round the cone");
    CHECK(unjudged(seat::HubNotJudged{
              .hub = "rotor", .why = Why::no_yield_point, .material = "G3000"}) ==
          "stress in 'rotor': G3000 has no yield point, and what breaks it is no limit to be used "
          "up");
    CHECK(unjudged(seat::HubNotJudged{
              .hub = "rotor", .why = Why::yield_not_known, .material = "steel"}) ==
          "stress in 'rotor': 'steel' says nothing of its yield; name a grade, or state 'strength' "
          "under 'materials'");
    CHECK(unjudged(seat::BoltNotJudged{"crank.thread"}) ==
          "stress in the thread: nothing says how strong 'crank.thread' is; give it a 'class'");
    CHECK(unjudged(seat::StripNotJudged{{"nut.thread"}}) ==
          "stripping of the threads: nothing says how strong nut.thread is; give the thread a "
          "'class', or its part a 'material' whose tensile strength is known");
    CHECK(unjudged(seat::NutNotJudged{"8", "M10x1.25-6H"}) ==
          "the nut's proof load: nothing is known of class 8 on M10x1.25-6H");
}

TEST_CASE("what a seat notes") {
    CHECK(seat_noted(seat::Remark::bears_at_one_end) ==
          "The hub bears at one end only: pressure and hub stress are greater there than reckoned, "
          "and what the cone holds is reckoned at the smaller end of the contact.");
    CHECK(seat_noted(seat::Remark::lets_go_by_itself) ==
          "At the least friction the cone lets go by itself once the nut slackens: the nut alone "
          "keeps it.");
    CHECK(seat_noted(seat::Remark::readings_set_aside) ==
          "The file's readings are set aside: these figures are from the sizes as written.");
    CHECK(seat_noted(seat::NotCounted{.part = "washer", .lacks = seat::NotCounted::Lacks::rings}) ==
          "Not in the inertia: 'washer' has no rings.");
    CHECK(words(seat::LandsFirst{.outboard = "rotor.rim", .inboard = "plate.front", .by = 0.1}) ==
          "rotor.rim may land on plate.front first, by up to 0.10 mm");
    CHECK(words(seat::SeatFinding{.id = seat::FindingId::key_entry}) ==
          "room over the key (less than 0: it does not go in)");
    CHECK(paper::key(seat::FindingId::key_entry) == "key_room");
}

TEST_CASE("what timing lacks") {
    using timing::Remark;
    CHECK(timing_noted(Remark::no_gauge) ==
          "The section names no 'gauge' for the piston height: its error is left out.");
    CHECK(timing_noted(Remark::stop_holds_exactly) ==
          "The stop is taken to hold the piston at one height exactly: 'holds' is not given.");
    CHECK(timing_noted(Remark::marks_without_fire_at) ==
          "The marks cannot be held to a firing point: 'fire_at' is not given.");
    CHECK(timing_noted(Remark::no_direction) ==
          "'turns' is not given, so no direction is named: earlier is the stator turned against "
          "the shaft.");
    CHECK(timing_noted(Remark::screw_in_middle) ==
          "The screw is taken to stand in the middle of its slot: 'free_earlier' is not given.");
    CHECK(timing_noted(Remark::curve_goes_on_flat) ==
          "Beyond its first and last point a curve is taken as flat.");
    CHECK(words(timing::NotJudged::slot_without_fire_at) ==
          "whether the slot reaches: 'fire_at' is not given");
    CHECK(words(timing::NotJudged::limits_without_gauge) ==
          "whether the limits of 'fire_at' are kept: no 'gauge' is given");
}

TEST_CASE("what odds leave out") {
    CHECK(words(odds::Note(odds::DescribedFirst{30})) ==
          "Quantiles and drivers are given of the first 30 only.");
    CHECK(words(odds::Note(odds::CountedAsNormal{8})) ==
          "Sizes that readings or second dimensions bind together count as normal; 8 of them are "
          "spread otherwise. Odds that stand on them may be off by some hundredths: 7 % may be 11 "
          "%.");
    CHECK(words(odds::Note(odds::UpperLimitsLeftOut{2})) ==
          "The chance of all together leaves out the upper limits of 2 engagements and overlaps.");
    CHECK(words(odds::Note(odds::ContactsLeftOut{7})) ==
          "What touches first was drawn among the deepest pairs; 7 more that may touch were left "
          "out.");
    CHECK(words(stack::Warning(stack::OftenFails{.name = "clear", .one_in = 66.4})) ==
          "WARNING: by RSS 'clear' holds, but by the odds it fails about 1 in 66. Trust the odds.");
    CHECK(words(stack::Warning(stack::OftenFails{.name = "clear", .one_in = 66.4, .more = 2})) ==
          "WARNING: by RSS 'clear' holds, but by the odds it fails about 1 in 66, and 2 more. "
          "Trust the odds.");
}

TEST_CASE("what a plan does not take into account") {
    CHECK(plan_noted(
              plan::NoRoomToCut{.face = "plate.front", .now = 5.51, .keep = 5.5, .holds = 0.03}) ==
          "plate.front is not considered for a cut: it is 5.51 now, and must keep 5.5 where the "
          "lathe holds ±0.03.");
    CHECK(plan_noted(plan::NoRadialGapAsked{"rotor.rim"}) ==
          "rotor.rim is not considered for a skim: the job asks for no radial gap.");
    CHECK(plan_noted(plan::NoRoomToSkim{.ring = "rotor.rim", .holds = 0.02}) ==
          "rotor.rim is not considered for a skim: 'keep' or 'until' leaves nothing to take off "
          "where the lathe holds ±0.02.");
    CHECK(plan_noted(plan::ShimCountTaken{.part = "stator", .most = 5}) ==
          "No more than 5 shims are fitted under stator: its shims say no 'at_most'.");
    CHECK(plan_noted(plan::AimWithoutLeast{"play"}) ==
          "the aim of 'play' is not taken into account: only an at_least gives it something to be "
          "measured by.");
    CHECK(plan_noted(plan::StrengthNotGiven{"engagement"}) ==
          "'engagement' is not planned for: the job does not say how strong its threads are.");
    CHECK(plan_noted(plan::NotRounded{"shaft"}) ==
          "the shims under shaft are not rounded: they move no check with an 'aim', which would "
          "say how thick they ought to be.");
    CHECK(plan_noted(plan::SeveralAims{.part = "shaft", .checks = {"play", "reach"}}) ==
          "the shims under shaft move more than one check with an 'aim': 'play', 'reach'. They are "
          "set so that the distances to the aims are least in sum; keep one aim where only one "
          "matters.");
    CHECK(plan_noted(plan::LeansAsItStands{}) ==
          "How far a tilted part leans over at a gap was reckoned as things stand, and every plan "
          "was then checked as it will stand: a slightly cheaper one may have been passed over.");
    CHECK(plan_noted(plan::PlanRefused{.cost = 2.5}) ==
          "a plan of cost 2.5 is not shown: with its work done, not every check holds.");
}

TEST_CASE("what a record's entry says was done") {
    using Kind = sheet::WorkEntered::Kind;
    const auto done = [](Kind kind, const char* size, bool planned = false) {
        return words(sheet::WorkEntered{kind, "plate", size, planned});
    };
    CHECK(done(Kind::cut, "5.21") == "plate cut to 5.21");
    CHECK(done(Kind::skim, "88") == "plate skimmed to 88");
    CHECK(done(Kind::lap, "0.02") == "plate lapped by 0.02");
    CHECK(done(Kind::centring, "0.05") == "plate centred to 0.05");
    CHECK(done(Kind::shims, "0.5 + 0.3") == "plate: shims 0.5 + 0.3");
    CHECK(done(Kind::shims, "") == "plate: no shims");
    CHECK(done(Kind::measurement, "3.1") == "plate: 3.1");
    CHECK(done(Kind::cut, "5.21", true) == "planned, not done: plate cut to 5.21");
}

TEST_CASE("what a survey notes, and the slips that it knows") {
    using Kind = survey::Slip::Kind;
    CHECK(words(survey::Note(survey::PushNotStated{"float"})) ==
          "'float' does not say which way the crank was pushed, so it is taken to lie anywhere in "
          "its play. Push it one way, say so, and the reading tells more.");
    CHECK(words(survey::Note(survey::NothingMeasuredSince{"2026-01-01"})) ==
          "Nothing was measured after the work of 2026-01-01: the parts are as before it.");
    const auto slip = [](Kind kind, double by = 0.0, bool inches = false) {
        return words(survey::Slip{.kind = kind, .by = by, .inches = inches});
    };
    CHECK(slip(Kind::misread, 10.0) == "a misread of 10 mm");
    CHECK(slip(Kind::misread, 0.5) == "a misread of 0.5 mm");
    CHECK(slip(Kind::misread, 0.05, true) == "a misread of 0.05 in");
    CHECK(slip(Kind::turn_of_thimble, 0.025, true) ==
          "a misread of 0.025 in, one turn of the thimble");
    CHECK(slip(Kind::wrong_sign) == "a wrong sign");
    CHECK(slip(Kind::inch_as_mm) == "an inch figure written as millimetres");
    CHECK(slip(Kind::mm_as_inch) == "a millimetre figure written as inches");
    CHECK(slip(Kind::faces_swapped) == "the two faces swapped");
}
