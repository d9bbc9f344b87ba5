// SPDX-License-Identifier: MIT
#include <doctest/doctest.h>

#include <trialfit/paper/check/cautions.hpp>
#include <trialfit/paper/printed.hpp>
#include <trialfit/paper/seat/text.hpp>
#include <trialfit/paper/words/words.hpp>
#include <unit/seat/tight_job.hpp>

using namespace trialfit;
using namespace trialfit::testing;
using paper::seat_headline;

namespace {

// Answers made by hand: what a headline says must not hang on the figures of a formula.
seat::SeatAnswer answer() {
    seat::SeatAnswer a;
    a.title = "A seat";
    a.file = "seat.yaml";
    a.hub = "rotor";
    a.shaft = "crank";
    a.nut = "nut";
    a.nut_torque_nm = seat::Estimate{30.0, 35.0, 40.0};
    a.held_nm = seat::Estimate{62.4, 80.0, 101.0};
    a.needed_nm = 39.2;
    a.torque_limits = {.cone_needs = 18.9, .most = 52.3, .most_by = seat::FindingId::hub_stress};
    a.findings = {{.id = seat::FindingId::cone_torque,
                   .value = *a.held_nm,
                   .unit = "N m",
                   .source = "a book",
                   .at_least = 39.2,
                   .limit_source = "line 4",
                   .verdict = stack::Verdict::holds},
                  {.id = seat::FindingId::hub_stress,
                   .value = {90.0, 120.0, 150.0},
                   .unit = "MPa",
                   .source = "Lame",
                   .at_most = 210.0,
                   .limit_source = "line 9",
                   .verdict = stack::Verdict::holds}};
    a.cautions = {stack::Caution::maker};
    a.not_assessed = {seat::NotAssessed::balance};
    return a;
}

}  // namespace

TEST_CASE("the headline gives what is held, what is needed, and what follows") {
    CHECK(seat_headline(answer()) ==
          "The cone holds 62 N m at worst where 40 is needed, and thread and hub keep within their "
          "limits, at 30 to 40 N m on the nut.");
    auto a = answer();
    a.held_nm = seat::Estimate{22.7, 38.0, 50.0};
    a.findings[0].verdict = a.verdict = stack::Verdict::fails;
    CHECK(seat_headline(a) ==
          "The cone holds 22 N m at worst where 40 is needed: the rotor works loose at 30 to 40 N "
          "m on the nut. By this reckoning the cone needs 18.9 N m on the nut; the engine maker's "
          "torque comes first.");
    a.findings[0].verdict = a.verdict = stack::Verdict::doubtful;
    CHECK(seat_headline(a).find("the rotor may work loose at") != std::string::npos);
    a.torque_limits.cone_needs = 60.2;
    CHECK(
        seat_headline(a).ends_with("No nut torque does it: the cone needs 61 N m, and 52 N m is "
                                   "the most allowed for hub at its bore, equivalent stress."));
}

TEST_CASE("held and needed are never rounded into one another") {
    auto a = answer();
    a.held_nm->least = 40.34;
    a.needed_nm = 40.31;
    CHECK(seat_headline(a).starts_with("The cone holds 40.34 N m at worst where 40.31 is needed"));
    a.held_nm->least = 23.58;
    a.needed_nm = 22.05;
    CHECK(seat_headline(a).starts_with("The cone holds 23.5 N m at worst where 22.1 is needed"));
    a.held_nm->least = 22.0;
    a.needed_nm = 22.0;
    CHECK(seat_headline(a).starts_with("The cone holds 22.000 N m at worst where 22.000 is"));
}

TEST_CASE("what else fails comes before what is only in doubt") {
    auto a = answer();
    a.verdict = stack::Verdict::doubtful;
    a.findings[1].verdict = stack::Verdict::doubtful;
    a.findings[1].value.greatest = 230.0;
    CHECK(seat_headline(a) ==
          "The cone holds 62 N m at worst where 40 is needed, but it is doubtful: hub at its bore, "
          "equivalent stress is 230 MPa, 210 is the most allowed, at 30 to 40 N m on the nut.");
    a = answer();
    a.verdict = stack::Verdict::fails;
    a.seated = {.verdict = stack::Verdict::fails,
                .why = seat::LandsFirst{
                    .outboard = "rotor.rim", .inboard = "plate.front", .by = 4.0, .part = "rotor"}};
    CHECK(seat_headline(a) ==
          "The rotor does not reach its cone, so the cone holds nothing: rotor.rim lands on "
          "plate.front, 4.00 mm before rotor seats.");
}

TEST_CASE("what is not judged, and what warns, stand in the first line") {
    auto a = answer();
    a.verdict = stack::Verdict::not_judged;
    a.not_judged = {seat::HubNotJudged{.hub = "rotor"}, seat::NotStated::spinning_material};
    CHECK(seat_headline(a) ==
          "NOT JUDGED: stress in 'rotor': it has no material, and 1 more. The cone holds 62 N m at "
          "worst where 40 is needed, at 30 to 40 N m on the nut.");
    a.needed_nm.reset();
    CHECK(
        seat_headline(a).ends_with("The cone holds 62 N m at worst, at 30 to 40 N m on the nut."));
    a.nut_torque_nm.reset();
    a.held_nm.reset();
    CHECK(seat_headline(a) == "NOT JUDGED: stress in 'rotor': it has no material, and 1 more.");
    a = answer();
    a.warnings = {seat::TouchesAtOneEnd{.hub = "rotor", .small_end = true}};
    a.verdict = stack::Verdict::fails;
    CHECK(seat_headline(a).starts_with(
        "WARNING: the tapers differ. 'rotor' touches at the small end only and can rock. Do not "
        "run it. The cone "));
}

TEST_CASE("no torque is worded as a setting") {
    const auto made = answer_of(job_of({}));
    const std::string text = paper::seat_text(made, {.width = 400});
    CHECK(text.find("everything") == std::string::npos);
    CHECK(text.find("stand it") == std::string::npos);
    CHECK(text.find("no setting: the engine maker's torque comes first") != std::string::npos);
    CHECK(text.find("The friction values are guesses; so are these results.") < text.find("Found"));
}

TEST_CASE("the text carries every source, the cautions and what was not assessed") {
    const auto made = answer_of(job_of({}));
    const std::string text = paper::seat_text(made, {.width = 400});
    for (const auto& each : made.findings)
        CHECK_MESSAGE(text.find(each.source) != std::string::npos, paper::key(each.id));
    for (const auto& each : made.inputs)
        CHECK_MESSAGE(text.find(each.source) != std::string::npos, paper::words(each.what));
    CHECK_FALSE(made.cautions.empty());
    for (const auto& each : paper::whole_cautions(made.cautions, paper::NextWork::tighten))
        CHECK(text.find(each) != std::string::npos);
    for (const auto& each : made.not_assessed)
        CHECK(text.find(paper::words(each)) != std::string::npos);
    CHECK(text.find("\x1b") == std::string::npos);
}

TEST_CASE("as JSON an unbounded range and an unknown draw-up are null") {
    auto a = answer();
    a.torque_limits = {};
    const std::string json = paper::seat_json(a);
    CHECK(json.find("\"most\": null") != std::string::npos);
    CHECK(json.find("\"most_by\": null") != std::string::npos);
    CHECK(json.find("\"draw_up\": null") != std::string::npos);
    CHECK(json.starts_with("{\n  \"trialfit\": 1,\n  \"command\": \"seat\""));
}
