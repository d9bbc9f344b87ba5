// SPDX-License-Identifier: MIT
#include <doctest/doctest.h>

#include <algorithm>
#include <string>
#include <trialfit/trialfit.hpp>
#include <vector>

namespace trialfit {

namespace {

// A hub on a cone with a nut, over a plate: a feature of each kind.
JobBuilder engine() {
    JobBuilder job("Hub on a cone");
    job.running_clearance(0.5).general_tolerance('m').shim_cost(0.2);
    job.gauge("caliper", 0.03);
    job.gap("room", "plate.front", "rotor.rim", {.at_least = "0.6"});
    job.part("crank", {.turns = true, .material = "alloy steel"}).zero("crank.big");
    job.face("crank.thread_in", "20 +-0.2", "big").face("crank.end", "36 +-0.1", "crank.big");
    job.cone("crank.taper", {.at = "big", .dia = "16 +-0.01", .taper = "1 in 5", .length = "16"});
    job.thread("crank.thread",
               {.form = "M10x1.25-6g", .from = "thread_in", .to = "end", .lead_in = "1.25"});
    job.ring("crank.stub", {.from = "big", .to = "end", .od = "10"});
    job.part("plate").zero("plate.back");
    job.face("plate.front", "10 by caliper", "back");
    job.sits("plate.back", "crank.big", {.offset = "-12 +-0.1"});
    job.ring("plate.disc", {.from = "back", .to = "front", .bore = "40", .od = "100"});
    job.cut("plate.front", {.measure = "back", .keep = 5.5, .holds = 0.03, .read_by = "caliper"});
    job.part("rotor", {.turns = true}).zero("rotor.boss");
    job.face("rotor.seat", "20 +-0.05", "boss").face("rotor.rim", "2 +-0.1", "boss");
    job.cone("rotor.bore", {.at = "boss", .dia = "16 +-0.01", .taper = "0.2", .length = "16"});
    job.sits_on_cone("rotor.bore", "crank.taper");
    job.ring("rotor.hub", {.from = "boss", .to = "seat", .bore = "16", .od = "30"});
    job.ring("rotor.skirt", {.from = "rim", .above = 10, .bore = "84", .od = "92 exact"});
    job.part("nut", {.turns = true}).zero("nut.under");
    job.face("nut.top", "8 h13", "under").sits("nut.under", "rotor.seat");
    job.thread("nut.inside", {.form = "M10x1.25-6H", .from = "under", .to = "top"});
    job.engagement("nut engagement", "nut.inside", "crank.thread", {.at_least = "0.5 d"});
    job.reading("proud", "rotor.seat", "crank.end", "16 +-0.5", {"rotor", "crank"});
    return job;
}

std::vector<std::string> faults(const JobBuilder& job) {
    const auto built = job.build();
    CHECK(!built);
    std::vector<std::string> all;
    for (const job::Complaint& each : built.complaints()) {
        CHECK(each.at == job::Place{});
        all.push_back(each.fault + "; " + each.mend);
    }
    return all;
}

}  // namespace

TEST_CASE("a job made by names is the job that its file says") {
    const auto job = engine().build();
    REQUIRE(job);
    CHECK(job::validate(*job).empty());
    CHECK(job->parts[1].seats[0].offset->size == quantity::toleranced(-12, -0.1, 0.1));
    CHECK(job->parts[1].cuts[0].read_by == 0);
    CHECK(job->parts[2].seats[0].kind == job::SeatKind::cone_on_cone);
    CHECK(job->parts[2].rings[0].bore_bare);
    CHECK(!job->parts[2].rings[1].outside_bare);
    CHECK(job->parts[2].rings[1].outboard.beyond == 10.0);
    CHECK(job->readings[0].fitted == std::vector<job::PartId>{0, 2});
    CHECK(job->checks[1].at_least->in == job::LimitIn::diameters);
    const auto study = Study::of(*job);
    REQUIRE(study);
    const auto text = study->yaml();
    REQUIRE(text);
    const auto again = Study::read(*text, "");
    REQUIRE(again);
    CHECK(again->yaml().value() == *text);
    const auto one = study->check();
    const auto other = again->check();
    REQUIRE(one);
    REQUIRE(other);
    CHECK(paper::check_json(*one) == paper::check_json(*other));
    CHECK(study->plan());
    // A gap by hand: -12 + 10 is plate.front, 0 + 2 rotor.rim, both from crank.big.
    CHECK(find_check(*study->check({.as_written = true}), "room")->value.nominal ==
          doctest::Approx(4.0));
}

TEST_CASE("limits are counted as a file counts them") {
    const auto job = engine()
                         .overlap("share", "rotor.skirt", "rotor.hub", {.at_least = "75 %"})
                         .overlap("length", "rotor.skirt", "rotor.hub", {.at_most = "0.1 in"})
                         .engagement("turns", "nut.inside", "crank.thread",
                                     {.at_least = "strength", .at_most = "6 pitches"})
                         .air_gap("air", "crank.stub", "plate.disc", {.at_least = "1"})
                         .build();
    REQUIRE(job);
    CHECK(job->checks[2].at_least->value == 0.75);
    CHECK(job->checks[3].at_most->value == doctest::Approx(2.54));
    CHECK(job->checks[4].at_least->in == job::LimitIn::strength);
    CHECK(job->checks[4].at_most->value == 6.0);
    CHECK(job->air_gaps[0].at_least->value == 1.0);
}

TEST_CASE("every fault of a job made by names comes back at once, with its mend") {
    JobBuilder job = engine();
    job.part("plate").part("two.words");
    job.face("plat.rim", "1 exact", "back").face("rim", "1 exact", "back");
    job.face("plate.rim", "1,5", "back").face("plate.step", "1 exact", "bakc");
    job.face("plate.far", "1 exact", "crank.big");
    job.ring("plate.disc", {.from = "back", .to = "front", .od = "20"});
    job.ring("plate.boss", {.from = "back", .to = "front", .below = 1, .od = "20"});
    job.sits("plate.back", "crank.bigg").cut("plate.front", {.measure = "back", .read_by = "cal"});
    job.gap("no face", "plate.front", "rotor.rin", {.at_least = "1"});
    job.gap("no limit", "plate.front", "rotor.rim", {.at_least = "75 %"});
    job.thread("nut.other", {.form = "M10x9", .from = "under", .to = "top"});
    job.reading("odd", "rotor.seat", "crank.end", "1 exact", {"crank", "motor"});
    const std::vector<std::string> expected{
        "there are two parts named 'plate'; give one of them another name",
        "'two.words' cannot be the name of a part; a name has letters, digits, '_' and '-', and no "
        "dot",
        "face 'plat.rim' is of no part that was named; did you mean 'plate'?",
        "face 'rim' does not name its part; write it like 'plate.rim'",
        "there are two rings named 'plate.disc'; give one of them another name",
        "'plate.rim': '1,5' is written with a decimal comma; write '1.5'",
        "'plate.step' names 'plate.bakc', which is no face of this job; did you mean "
        "'plate.back'?",
        "'plate.far' is measured from 'crank.big', which is on another part; name a face of part "
        "'plate'",
        "ring 'plate.boss' does not have one other end; give one of 'to', 'below' > 0 and 'above' "
        "> 0",
        "the seat of 'plate.back' names 'crank.bigg', which is no face of this job; did you mean "
        "'crank.big'?",
        "'cal' is no gauge of this job; add it with the half-width that it is good to",
        "check 'no face' names 'rotor.rin', which is no face of this job; did you mean "
        "'rotor.rim'?",
        "the limit '75 %' of check 'no limit' is no one length; write it like '0.5'",
        "reading 'odd' names 'motor', which is no part of this job; did you mean 'rotor'?"};
    const std::vector<std::string> found = faults(job);
    for (const std::string& each : expected) {
        CAPTURE(each);
        CHECK(std::count(found.begin(), found.end(), each) == 1);
    }
    CHECK(std::any_of(found.begin(), found.end(), [](const std::string& each) {
        return each.starts_with("thread 'nut.other'");
    }));
    CHECK(found.size() == expected.size() + 1);
}

TEST_CASE("what names do not show is found by the job's own rules") {
    CHECK(!faults(JobBuilder("empty")).empty());
    JobBuilder untied("untied");
    untied.part("a").zero("a.f").part("b").zero("b.g");  // two parts that sit on nothing
    CHECK(!faults(untied).empty());
}

}  // namespace trialfit
