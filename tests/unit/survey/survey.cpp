// SPDX-License-Identifier: MIT
#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <memory>
#include <support/jobs.hpp>
#include <trialfit/stack/check/check.hpp>
#include <trialfit/survey/survey.hpp>

#include "support/messages.hpp"

namespace job = trialfit::job;
namespace quantity = trialfit::quantity;
using namespace trialfit::survey;
using namespace trialfit::testing;

namespace {

job::Given gauged(double value, double half_width) {
    return {.size = quantity::reading(value, half_width), .written = "by test gauge", .gauge = 0};
}

// A hub on a cone over a plate: seated it would foul the plate by `foul`. Thread proud of the hub
// when seated 14.0, when it rests on the plate 14.0 - foul.
job::Job hub_over_plate(double foul) {
    job::Job job;
    job.gauges.push_back({.name = "caliper", .half_width = 0.03});
    job.parts.push_back(PartOf("case", "floor"));
    PartOf shaft("shaft", "big");
    shaft.face("end", gauged(36.0, 0.03), "big")
        .cone("cone", "big", gauged(16.0, 0.005), 0.2, 16.0);
    job::Seat floating{.kind = job::SeatKind::face_at_offset,
                       .own = 0,
                       .against = {0, 0},
                       .offset = gauged(6.0, 0.02)};
    floating.play = job::Given{.size = {.nominal = 0.1,
                                        .lower = 0.05,
                                        .upper = 0.15,
                                        .spread = {.shape = quantity::Shape::normal}}};
    shaft.seat(floating);
    job.parts.push_back(shaft);
    PartOf plate("plate", "back");
    plate.face("front", gauged(6.0 + foul, 0.03), "back")
        .ring("disc", "back", "front", 40.0, 100.0);
    plate.seat(on_face(0, {0, 0}));
    job.parts.push_back(plate);
    PartOf hub("hub", "rim");
    hub.face("boss", gauged(2.0, 0.03), "rim").face("top", gauged(20.0, 0.03), "boss");
    hub.ring("skirt", "rim", "top", 84.0, 92.0)
        .cone("bore", "boss", gauged(15.6, 0.005), 0.2, 16.0);
    hub.seat(on_cone(0, {1, 0}));
    job.parts.push_back(hub);
    return job;
}

job::Reading proud(const std::string& name, double value, std::vector<job::PartId> fitted) {
    return {.name = name,
            .from = {3, 2},
            .to = {1, 1},
            .is = gauged(value, 0.03),
            .fitted = std::move(fitted),
            .pushed = job::Pushed::out};
}

SurveyAnswer survey_of(const job::Job& job) {
    return std::get<SurveyAnswer>(survey(job));
}

}  // namespace

TEST_CASE("a job with no second opinion has nothing to compare") {
    const SurveyAnswer answer = survey_of(hub_over_plate(-1.0));
    CHECK(answer.judgement == Judgement::nothing_to_compare);
    CHECK(answer.freedom == 0);
}

TEST_CASE("a jammed reading finds the faces that touch, a seated one its seat") {
    // The seat is at boss = 6 + 2 = 8, the rim at 6; a plate 10 thick lifts it by 4.
    job::Job job = hub_over_plate(4.0);
    job.readings.push_back(proud("alone", 14.01, {0, 1, 3}));
    job.readings.push_back(proud("all", 10.04, {}));
    const SurveyAnswer answer = survey_of(job);
    REQUIRE(answer.readings.size() == 2);
    CHECK(answer.readings[0].jammed_part.empty());
    CHECK(answer.readings[1].jammed_part == "hub");
    CHECK(answer.readings[1].touching_inboard == "plate.front");
    CHECK(answer.readings[1].touching_outboard == "hub.rim");
    CHECK(answer.judgement == Judgement::agree);
    CHECK(answer.freedom == 2);
    // Pushed out, the shaft lies half of its play (0.05) further out.
    CHECK(answer.readings[1].should_be == doctest::Approx(10.05).epsilon(0.002));
}

TEST_CASE("readings narrow what they bear on") {
    job::Job job = hub_over_plate(4.0);
    const auto width = [&](std::vector<trialfit::stack::TrialFit> readings) {
        const auto why = trialfit::stack::why_gap(job, "plate.front", "hub.rim",
                                                  {.readings = std::move(readings)});
        const auto& value = std::get<trialfit::stack::WhyAnswer>(why).value;
        CHECK(value.nominal == doctest::Approx(-4.0).epsilon(0.01));
        return std::pair{value.worst.hi - value.worst.lo, value.rss.hi - value.rss.lo};
    };
    const auto as_written = width({});
    job.readings.push_back(proud("alone", 14.01, {0, 1, 3}));
    job.readings.push_back(proud("all", 10.04, {}));
    const auto bound = width(std::get<0>(evidence(job)));
    CHECK(bound.first < as_written.first);
    CHECK(bound.second < as_written.second);
}

namespace {

std::vector<std::string> names(const SurveyAnswer& answer) {
    std::vector<std::string> all;
    for (const Suspect& each : answer.suspects)
        all.push_back(each.name);
    return all;
}

bool has(const std::vector<std::string>& all, const std::string& name) {
    return std::find(all.begin(), all.end(), name) != all.end();
}

}  // namespace

TEST_CASE("a reading that is a millimetre out is named with all that explains it as well") {
    for (const double out : {1.0, -1.0}) {
        for (const std::size_t which : {std::size_t{0}, std::size_t{1}}) {
            job::Job job = hub_over_plate(4.0);
            job.readings.push_back(proud("alone", 14.0, {0, 1, 3}));
            job.readings.push_back(proud("all", 10.05, {}));
            job.readings[which].is = gauged(job.readings[which].is.size.nominal + out, 0.03);
            const SurveyAnswer answer = survey_of(job);
            // Seated, the cone's diameters make the same difference; jammed, the chain through
            // the plate does. Worked by hand from which figures each reading runs over alone.
            REQUIRE(answer.judgement == Judgement::cannot_tell);
            CHECK(answer.one_explains);
            const std::vector<std::string> all = names(answer);
            CHECK(has(all, job.readings[which].name));
            CHECK(has(all, which == 0 ? "hub.bore diameter" : "plate.front from plate.back"));
            CHECK_FALSE(has(all, job.readings[1 - which].name));
            CHECK_FALSE(has(all, "shaft.end from shaft.big"));
            CHECK(answer.suspects.front().off_by == doctest::Approx(out).epsilon(0.01));
            const auto slip = answer.suspects.front().slip;
            REQUIRE(slip);
            CHECK(slip->kind == Slip::Kind::misread);
            CHECK(slip->by == 1.0);
            CHECK_FALSE(slip->inches);
            REQUIRE(answer.split.has_value());
            CHECK(answer.split->outcomes.size() > 1);
        }
    }
}

TEST_CASE("one figure is called suspect only where nothing else explains as much") {
    // Two readings over the same way: only one of them can be off alone.
    job::Job job = hub_over_plate(-3.0);
    job.readings.push_back(proud("first", 14.0, {}));
    job.readings.push_back(proud("second", 15.0, {}));
    const SurveyAnswer answer = survey_of(job);
    REQUIRE(answer.judgement == Judgement::suspect);
    CHECK(answer.suspects.front().name == "second");
    REQUIRE(answer.odds_to_next.has_value());
    CHECK(*answer.odds_to_next > 7.0);
    // The other reading is held against the rest without it.
    CHECK(std::abs(answer.readings[0].standardised) < 0.5);
}

TEST_CASE("a pair stated the wrong way round is tried as an explanation") {
    job::Job job = hub_over_plate(4.0);
    job.readings.push_back(proud("alone", 14.0, {0, 1, 3}));
    job.readings.push_back(proud("all", 10.05, {}));
    job.readings[1].touching = job::GapOf{{3, 0}, {2, 1}};  // plate.front is the inboard one
    const SurveyAnswer answer = survey_of(job);
    REQUIRE(answer.judgement == Judgement::cannot_tell);
    const auto swapped =
        std::find_if(answer.suspects.begin(), answer.suspects.end(),
                     [](const Suspect& each) { return each.kind == SuspectKind::touching; });
    REQUIRE(swapped != answer.suspects.end());
    CHECK(swapped->name == "all");
    CHECK(swapped->lay == "hub.rim on plate.front");
}

TEST_CASE("a sign slip is recognised") {
    job::Job job = hub_over_plate(-3.0);
    job.readings.push_back(proud("first", 14.0, {}));
    job.readings.push_back(proud("second", -14.0, {}));
    const SurveyAnswer answer = survey_of(job);
    REQUIRE(answer.judgement == Judgement::suspect);
    CHECK(answer.suspects.front().name == "second");
    REQUIRE(answer.suspects.front().slip);
    CHECK(answer.suspects.front().slip->kind == Slip::Kind::wrong_sign);
}

TEST_CASE("parts that foul elsewhere say nothing of a reading") {
    // A cover that cannot go on is fitted, as far as the file says; the hub is seated.
    job::Job job = hub_over_plate(-0.05);
    PartOf cover("cover", "rim");
    cover.face("inside", gauged(9.0, 0.03), "rim").ring("roof", "rim", "inside", 0.0, 20.0);
    cover.seat(on_face(0, {0, 0}));
    job.parts.push_back(cover);
    job.parts[1].rings.push_back({.name = "stub",
                                  .inboard = {.face = 0},
                                  .outboard = {.face = 1},
                                  .outside = {.size = quantity::exact(10.0)}});
    job.readings.push_back(proud("all", 14.0, {}));
    const SurveyAnswer answer = survey_of(job);
    CHECK(answer.readings[0].jammed_part.empty());
    CHECK(answer.judgement == Judgement::agree);
}

TEST_CASE("a hub that had not gone home is thought of") {
    job::Job job = hub_over_plate(-3.0);
    job.readings.push_back(proud("key out", 14.0, {}));
    job.readings.push_back(proud("key in", 13.3, {}));
    const SurveyAnswer answer = survey_of(job);
    REQUIRE(answer.judgement == Judgement::suspect);
    CHECK(answer.suspects.front().name == "key in");
    CHECK(answer.suspects.front().not_home == "hub");
    CHECK(answer.suspects.front().stood_off == doctest::Approx(0.7).epsilon(0.02));
}

TEST_CASE("a trial fit after the work that reads short is a part that stands off") {
    job::Job job = hub_over_plate(-0.5);
    job.readings.push_back(proud("after the cut", 13.5, {}));
    job.readings.back().entries = 0;
    CHECK(survey_of(job).stands_off.empty());  // an old reading may be wrong in many ways
    job.readings.back().entries = 1;
    job.in_force = 1;
    job.record.push_back({.date = "2020-01-01"});
    job.before = std::make_shared<job::Job>(hub_over_plate(-0.5));
    const SurveyAnswer answer = survey_of(job);
    REQUIRE(answer.stands_off.size() == 1);
    const StandsOffFound& off = answer.stands_off.front();
    CHECK(off.part == "hub");
    // Seated it would read 36 - 20 - (16 - 15.6)/0.2 = 14.0 wherever the shaft lies.
    CHECK(off.by == doctest::Approx(0.5).epsilon(0.01));
    CHECK(off.inboard == "plate.front");
    CHECK(off.outboard == "hub.rim");
    CHECK(off.clears == doctest::Approx(0.5).epsilon(0.01));
    CHECK_FALSE(all_agree(answer));
    const auto fits = std::get<0>(evidence(job));
    const auto checked = std::get<0>(trialfit::stack::check(job, {.readings = fits}));
    CHECK(checked.verdict == trialfit::stack::Verdict::fails);
    REQUIRE(checked.warnings.size() == 1);
    const auto* const warned = message<trialfit::stack::StoodOff>(checked.warnings);
    REQUIRE(warned != nullptr);
    CHECK(warned->part == "hub");
    CHECK(warned->by == doctest::Approx(0.5).epsilon(0.01));
}

TEST_CASE("two readings against each other alone: the data cannot tell which") {
    job::Job job;
    job.gauges.push_back({.name = "caliper", .half_width = 0.03});
    PartOf bar("bar", "left");
    bar.face("right", gauged(10.0, 5.0), "left");
    job.parts.push_back(bar);
    for (const double value : {10.0, 11.0}) {
        job.readings.push_back({.name = value > 10.5 ? "second" : "first",
                                .from = {0, 0},
                                .to = {0, 1},
                                .is = gauged(value, 0.03)});
    }
    const SurveyAnswer answer = survey_of(job);
    CHECK(answer.judgement == Judgement::cannot_tell);
    CHECK(answer.suspects.size() == 2);
}

TEST_CASE("an offset common to all that one gauge read is found") {
    // Five bars, each known to 0.005, each read 0.2 short by the depth rod.
    job::Job job;
    job.gauges.push_back({.name = "depth rod", .half_width = 0.02});
    PartOf bar("bar", "zero");
    const std::vector<double> lengths{10.0, 20.0, 30.0, 40.0, 50.0};
    for (std::size_t i = 0; i < lengths.size(); ++i) {
        job::Given known{.size = quantity::reading(lengths[i], 0.005), .written = "known"};
        bar.face("end" + std::to_string(i), known, "zero");
    }
    job.parts.push_back(bar);
    for (std::size_t i = 0; i < lengths.size(); ++i) {
        job.readings.push_back({.name = "reading " + std::to_string(i),
                                .from = {0, 0},
                                .to = {0, static_cast<int>(i) + 1},
                                .is = gauged(lengths[i] - 0.2, 0.02)});
    }
    const SurveyAnswer answer = survey_of(job);
    REQUIRE_FALSE(answer.suspects.empty());
    CHECK(answer.suspects.front().kind == SuspectKind::gauge);
    CHECK(answer.suspects.front().name == "depth rod");
    CHECK(answer.suspects.front().off_by == doctest::Approx(-0.2).epsilon(1e-6));
}

TEST_CASE("the size that narrows the deciding check most is the loosest on its way") {
    job::Job job = hub_over_plate(-3.0);
    job.parts[2].faces[1].dimensions[0].distance = gauged(3.0, 0.4);
    job::Check check{.name = "rim clears plate", .of = job::GapOf{{2, 1}, {3, 0}}};
    check.at_least = job::Limit{.value = 2.9};
    job.checks.push_back(check);
    const SurveyAnswer answer = survey_of(job);
    REQUIRE_FALSE(answer.measure_next.empty());
    CHECK(answer.measure_next.front().size == "plate.front from plate.back");
    CHECK(answer.measure_next.front().sd_then < 0.5 * answer.measure_next.front().sd_now);
}

TEST_CASE("a reading over a part that was not fitted is refused") {
    job::Job job = hub_over_plate(4.0);
    job.readings.push_back(proud("alone", 14.0, {0, 3}));
    const auto answer = survey(job);
    const auto& complaints = std::get<job::Complaints>(answer);
    REQUIRE(complaints.size() == 1);
    CHECK(complaints[0].fault ==
          "reading 'alone' leads from hub.top to shaft.end over 'shaft', which was not fitted");
    CHECK(complaints[0].mend == "add it to 'fitted', or correct the faces");
}
