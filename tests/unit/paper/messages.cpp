// SPDX-License-Identifier: MIT
// The words of what the answers say beside their figures: those that no whole run in tests/cases
// prints.
#include <doctest/doctest.h>

#include <string>
#include <trialfit/paper/words/words.hpp>
#include <utility>
#include <vector>

namespace {

using namespace trialfit;
using paper::words;

std::string warned_of(job::Warning message) {
    return words(message);
}

job::LimitPassed passed(job::LimitPassed::Kind kind, bool surely) {
    return {.kind = kind,
            .what = "plate.disc",
            .is = 84.9,
            .worst = 84.85,
            .limit = 85.0,
            .surely = surely};
}

std::string noted(stack::Note note) {
    return words(note);
}

std::string open(stack::NotAssessed message) {
    return words(message);
}

}  // namespace

TEST_CASE("doubts about what a job means") {
    CHECK(warned_of(job::AxisNotStated{.parts = {"stator", "crank"}, .check = "air gap"}) ==
          "WARNING: nothing says how true the axis of stator and crank lies ('centred'), so check "
          "'air gap' takes it as exactly true.");
    job::UnitDoubtful unit{.widest_mm = 1955.8, .thread_mm = 10.0, .units = quantity::Unit::inch};
    CHECK(warned_of(unit) ==
          "WARNING: the greatest diameter of the job is 1956 mm, and its thread's 10 mm. Is "
          "'units: in' right?");
    unit = {.widest_mm = 2.54, .units = quantity::Unit::mm};
    CHECK(warned_of(unit) ==
          "WARNING: the greatest diameter of the job is 2.5 mm. Is 'units: mm' right?");
    job::TurnsAlone alone{.turns = "crank", .still = "nut"};
    const std::string rest =
        ". 'turns: true' is missing on one, or too much on the other; running clearances go by it.";
    CHECK(warned_of(alone) ==
          "WARNING: the crank turns and the nut does not, though they are screwed together" + rest);
    alone.joined = job::TurnsAlone::Joined::by_same_thread;
    CHECK(warned_of(alone) ==
          "WARNING: the crank turns and the nut does not, though they have the same thread" + rest);
}

TEST_CASE("limits that were passed, or may have been") {
    using Kind = job::LimitPassed::Kind;
    CHECK(warned_of(passed(Kind::keep, false)) ==
          "LIMIT PASSED: plate.disc may be as little as 84.85 mm, where 85 mm must remain.");
    CHECK(warned_of(passed(Kind::wall, true)) ==
          "LIMIT PASSED: the wall of plate.disc is 84.9 mm, where 85 mm must remain.");
    CHECK(warned_of(passed(Kind::until_outside, true)) ==
          "LIMIT PASSED: plate.disc is 84.9 mm on diameter, and was never to go under 85 mm.");
    CHECK(warned_of(passed(Kind::until_bore, true)) ==
          "LIMIT PASSED: the bore of plate.disc is 84.9 mm, and was never to go over 85 mm.");
    CHECK(warned_of(passed(Kind::until_bore, false)) ==
          "LIMIT PASSED: the bore of plate.disc may be as much as 84.85 mm, and was never to go "
          "over 85 mm.");
    CHECK(warned_of(passed(Kind::lap, true)) ==
          "LIMIT PASSED: plate.disc was lapped 84.9 mm more, on diameter, than the job allows.");
}

TEST_CASE("planned work, each kind in its own words") {
    using Kind = job::PlannedWork::Kind;
    const job::PlannedInForce planned{.work = {{Kind::cut, "plate.front", "5.53 ±0.03"},
                                               {Kind::skim, "plate.disc", "88"},
                                               {Kind::lap, "rotor.bore", "0.02"},
                                               {Kind::centring, "stator", "0.05"},
                                               {Kind::shims, "stator", "0.5 + 0.3"},
                                               {Kind::shims, "rotor", ""}},
                                      .set_aside = true};
    CHECK(warned_of(planned) ==
          "PLANNED, NOT CUT YET: plate.front to 5.53 ±0.03, plate.disc to 88, rotor.bore lapped by "
          "0.02, stator centred to 0.05, shims 0.5 + 0.3 under stator, no shims under rotor. The "
          "parts as they are:");
}

TEST_CASE("a hub that rocks, and a part that stood off") {
    stack::TapersDiffer differ{.hub = {"rotor.bore", "1:5"}, .shaft = {"crank.cone", "1:10"}};
    const auto touches = [&](stack::Bearing bearing) {
        differ.bearing = bearing;
        const std::string text = words(stack::Warning(differ));
        const std::string start =
            "WARNING: the tapers of rotor.bore (1:5) and crank.cone (1:10) differ. The hub touches "
            "at ";
        const std::string end = " only and can rock. Do not run it.";
        REQUIRE(text.starts_with(start));
        REQUIRE(text.ends_with(end));
        return text.substr(start.size(), text.size() - start.size() - end.size());
    };
    CHECK(touches(stack::Bearing::hub_large_end) == "the large end of rotor.bore");
    CHECK(touches(stack::Bearing::shaft_large_end) == "the large end of crank.cone");
    CHECK(touches(stack::Bearing::hub_small_end) == "the small end of rotor.bore");
    CHECK(touches(stack::Bearing::shaft_small_end) == "the small end of crank.cone");
    stack::StoodOff off{.part = "hub", .by = 0.5, .reading = "seated"};
    CHECK(words(stack::Warning(off)) ==
          "The hub stands 0.50 mm off its seat at the last trial fit ('seated').");
    off.held = stack::StoodOff::Holding{.own = "hub.rim", .against = "plate.front"};
    CHECK(words(stack::Warning(off)) ==
          "The hub stands 0.50 mm off its seat at the last trial fit ('seated'); the tightest pair "
          "is hub.rim on plate.front.");
    off.held->stated = true;
    CHECK(words(stack::Warning(off)).ends_with("('seated'), held by hub.rim on plate.front."));
}

TEST_CASE("cones that do not meet") {
    CHECK(words(stack::Warning(stack::ConesMiss{
              .hub = "rotor.bore", .shaft = "crank.cone", .too_narrow = true, .surely = true})) ==
          "WARNING: rotor.bore and crank.cone do not meet: by their diameters the hub does not go "
          "onto the cone.");
    CHECK(
        words(stack::Warning(stack::ConesMiss{.hub = "rotor.bore", .shaft = "crank.cone"})) ==
        "WARNING: rotor.bore and crank.cone do not meet in the worst case: by their diameters the "
        "hub slides over the whole cone.");
}

TEST_CASE("notes on keys, readings and the record") {
    CHECK(noted(stack::KeyMayNotEnter{.part = "hub", .most = 0.06}) ==
          "the key of hub may be 0.06 higher than its room; its slots are parallel to the axis, so "
          "it either enters or it does not: try it by hand.");
    CHECK(noted(stack::KeyMayNotEnter{.part = "hub", .most = 0.06, .excess = 0.05}) ==
          "the key of hub is 0.05 higher than its room; its slots are parallel to the axis, so it "
          "does not enter.");
    CHECK(words(stack::Warning(stack::KeyHoldsOff{.part = "hub"})).starts_with("WARNING: the key"));
    CHECK(noted(stack::KeyHoldsOff{.part = "hub", .excess = 0.05, .stand_off = 0.5}) ==
          "the key of hub is 0.05 higher than its room and holds the hub off its cone by 0.5.");
    CHECK(noted(stack::KeyMayHoldOff{.part = "hub", .excess = 0.05, .stand_off = 0.5}) ==
          "the key of hub may be as much as 0.05 higher than its room; that would hold the hub off "
          "its cone by 0.5, which the worst case takes in. Fit the hub with and without the key: "
          "it must reach the same place.");
    CHECK(noted(stack::ReadingsSetAside{.readings = 1}) ==
          "The file's 1 trial-fit reading was set aside: every figure here is from the sizes as "
          "written.");
    CHECK(noted(stack::RecordInForce{.entries = 1, .of = 3, .date = "2026-01-01"}) ==
          "The parts are taken as of 2026-01-01: 1 of the record's 3 entries in force.");
    CHECK(noted(stack::FollowsNut{.parts = {"rotor"}}) ==
          "Warm, rotor is taken to follow its nut on the cone.");
    CHECK(noted(stack::FollowsFirstSeat{.parts = {"a", "b", "c", "d", "e", "f", "g"}}) ==
          "Warm, a, b, c, d, e, f and 1 more is taken to follow the first of its seats.");
}

TEST_CASE("why a figure is not judged") {
    stack::GrowthNotKnown growth{.state = "run", .no_material = {}, .unknown = {{"coil", "resin"}}};
    const auto because = [](stack::NotJudgedFor why) { return words(why); };
    CHECK(because(growth) == "in state 'run' how far coil (resin) grows is not known");
    growth.no_material = {"cup"};
    CHECK(because(growth) ==
          "in state 'run' how far coil (resin) grows is not known, and no material of cup is "
          "given");
    growth.unknown.clear();
    CHECK(because(growth) == "in state 'run' no material of cup is given");
    CHECK(words(stack::NotJudged{.of = stack::NotJudged::Of::radial_gaps, .why = growth}) ==
          "radial gaps: in state 'run' no material of cup is given");
    CHECK(words(stack::NotJudged{.check = "engagement",
                                 .why = stack::ThreadStrengthNotKnown{.thread = "nut.thread"}}) ==
          "'engagement': nothing says how strong nut.thread is; give the thread a 'class', or its "
          "part a 'material' whose tensile strength is known");
}

TEST_CASE("what a stack does not assess") {
    using Lacks = stack::DrawUpLacks;
    const auto draw_up = [](stack::DrawUpUnknown why) {
        const std::string text = open(stack::DrawUpNotKnown{.hub = "rotor", .why = std::move(why)});
        const std::string start = "how far the nut draws rotor up its cone when it is tightened: ";
        REQUIRE(text.starts_with(start));
        return text.substr(start.size());
    };
    CHECK(draw_up(Lacks::seat_section) == "the file has no 'seat' section");
    CHECK(draw_up(Lacks::nut_torque) == "'seat' states no nut_torque");
    CHECK(draw_up(Lacks::thread_friction) == "'seat' states no thread_friction");
    CHECK(draw_up(Lacks::under_nut_friction) == "'seat' states no under_nut_friction");
    CHECK(draw_up(Lacks::cone_friction) == "'seat' states no cone_friction");
    CHECK(draw_up(Lacks::ring_round_cone) == "no ring of the hub lies round the cone");
    CHECK(draw_up(Lacks::materials) == "the draw-up needs the materials of hub and shaft");
    CHECK(draw_up(job::Complaint{.fault = "two hubs", .mend = "say which"}) == "two hubs");
    CHECK(open(stack::LeftOut::tilt_off_face_gaps) ==
          "what tilt takes off a check's gap between two faces, which have no diameter");
    CHECK(open(stack::TakenSquare{.parts = {"plate"}}) ==
          "what tilt takes off the gaps along the axis where no face runout is given: plate");
    CHECK(open(stack::TakenCold{.fits = {{"stator", "case.spigot"}}}) ==
          "the clearance of stator on case.spigot when warm: no diameter of its fit is given, so "
          "it is taken cold");
    CHECK(open(stack::PartnerNotKnown{.thread = "nut.thread"}) ==
          "whether nut.thread has thread left when it is home: what it screws onto is not known");
}

TEST_CASE("gaps that no check names have a name of their own") {
    stack::WhyAnswer why;
    why.first = "plate.front";
    why.second = "rotor.rim";
    CHECK(paper::name_of(why) == "gap from plate.front to rotor.rim");
    why.kind = stack::CheckKind::air_gap;
    CHECK(paper::name_of(why) == "radial gap of plate.front in rotor.rim");
    why.name = "clear";
    CHECK(paper::name_of(why) == "clear");
}

TEST_CASE("mends that point to another answer") {
    const auto mend = [](job::Remedy remedy) {
        return paper::mend_of({.fault = "x", .mend = {}, .remedy = remedy});
    };
    CHECK(paper::mend_of({.fault = "x", .mend = "mend it"}) == "mend it");
    CHECK(mend(job::Remedy::weigh_sizes) ==
          "measure these again and correct the one that is wrong; 'trialfit survey' weighs them");
    CHECK(mend(job::Remedy::see_position) ==
          "mend their diameters, lengths or tapers; 'trialfit why' shows where the hub lies");
    CHECK(mend(job::Remedy::see_engagement) ==
          "'trialfit check' shows the engagement; mend the faces that the threads run between");
}
