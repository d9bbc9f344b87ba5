// SPDX-License-Identifier: MIT
#include <doctest/doctest.h>

#include <fmt/format.h>

#include <string>
#include <support/examples.hpp>
#include <trialfit/paper/start/jam.hpp>
#include <trialfit/stack/bounds.hpp>
#include <trialfit/stack/change/as_built.hpp>
#include <trialfit/stack/check/check.hpp>
#include <trialfit/study/suppose.hpp>
#include <trialfit/survey/jam.hpp>
#include <trialfit/trialfit.hpp>

using namespace trialfit;

namespace {

job::Job pump() {
    return testing::job_in(TRIALFIT_SOURCE_DIR "/examples/pump-engine.yaml");
}

double gap_of(const job::Job& job, const std::string& check) {
    const auto now = stack::as_built(job, job.record.size());
    const auto answer = stack::check(std::get<job::Job>(now), {});
    for (const stack::CheckResult& each : std::get<stack::CheckAnswer>(answer).checks)
        if (each.name == check) return each.value.nominal;
    FAIL("no check " << check);
    return 0.0;
}

}  // namespace

TEST_CASE("a supposed cut is an entry of the record that nobody wrote") {
    const job::Job job = pump();
    const auto outcome = study::suppose(
        job, {{.what = "plate.front", .size = "6.00"}, {.what = "stator.shims", .size = "0.5+0.3"}},
        "2026-11-25");
    const auto* const as_if = std::get_if<job::Job>(&outcome);
    REQUIRE(as_if != nullptr);
    REQUIRE(as_if->record.size() == job.record.size() + 2);
    CHECK(as_if->record.back().supposed);
    CHECK(as_if->supposed ==
          std::vector<std::string>{"plate.front 6.00", "shims 0.5 + 0.3 under stator"});
    CHECK(as_if->record[job.record.size()].as_cut.at(0).size.size.half_width() > 0.0);
    CHECK(as_if->record.back().fitted.at(0).shims.size() == 2);
}

TEST_CASE("so much off a face is the same as the size that is then left") {
    const job::Job job = pump();
    const auto off = study::suppose(
        job, {{.what = "plate.front", .size = "1.00 exact", .by_amount = true}}, "2026-11-25");
    REQUIRE(std::holds_alternative<job::Job>(off));
    for (const job::Check& check : job.checks)
        CHECK(gap_of(std::get<job::Job>(off), check.name) ==
              doctest::Approx(
                  gap_of(std::get<job::Job>(study::suppose(
                             job, {{.what = "plate.front", .size = "9.00 exact"}}, "2026-11-25")),
                         check.name)));
}

TEST_CASE("what cannot be supposed is told, all of it") {
    const auto outcome = study::suppose(pump(),
                                        {{.what = "plate.back", .size = "5"},
                                         {.what = "plate.frnt", .size = "5"},
                                         {.what = "plate.front", .size = "99"},
                                         {.what = "rotor.hub", .size = "1", .by_amount = true}},
                                        "2026-11-25");
    const auto* const complaints = std::get_if<job::Complaints>(&outcome);
    REQUIRE(complaints != nullptr);
    REQUIRE(complaints->size() == 4);
    CHECK((*complaints)[0].fault ==
          "'plate.back' is the zero of its part and is measured from nothing");
    CHECK((*complaints)[1].mend == "did you mean 'plate.front'?");
    CHECK((*complaints)[2].mend == "metal does not grow: mend the one that was measured wrong");
    CHECK((*complaints)[3].fault == "this job lists no cut of 'rotor.hub'");
}

namespace {

survey::JamAnswer jam_of(double alone, double together, std::optional<double> clearance = {},
                         std::vector<survey::JamPart> parts = {}) {
    return survey::jam({.alone = quantity::reading(alone, 0.03),
                        .together = quantity::reading(together, 0.03),
                        .clearance = clearance,
                        .parts = std::move(parts)});
}

}  // namespace

TEST_CASE("what start jam says is what check says of the job that it writes") {
    for (const bool on_stator : {false, true})
        for (const double together : {10.02, 13.20, 13.93}) {
            paper::JamJob jam{.gauge_half_width = "0.03",
                              .alone = "13.97 by caliper",
                              .together = fmt::format("{} by caliper", together),
                              .clearance = "0.5",
                              .on_stator = on_stator,
                              .parts = {{.name = "plate", .now = "10 by caliper", .keep = "5"}}};
            const auto told = jam_of(13.97, together, 0.5);
            const auto study = Study::read(paper::jam_job(jam));
            REQUIRE(study);
            const auto answer = study->check();
            REQUIRE(answer);
            const stack::Bounds& gap = answer->checks.at(0).value;
            CAPTURE(paper::jam_job(jam));
            CHECK(-gap.nominal == doctest::Approx(told.off));
            CHECK(-gap.worst.lo == doctest::Approx(told.worst.hi));
            CHECK(0.5 - gap.worst.lo == doctest::Approx(told.to_be_sure));
        }
}

TEST_CASE("a jam by two readings: a subtraction, in the worst case of both") {
    using Found = survey::JamAnswer::Found;
    const auto answer =
        jam_of(13.97, 10.02, 0.5,
               {{.name = "plate", .now = quantity::reading(10.0, 0.03), .keep = 5.5},
                {.name = "rotor", .now = quantity::reading(8.0, 0.03), .keep = {}}});
    CHECK(answer.found == Found::stands_off);
    CHECK(answer.off == doctest::Approx(3.95));
    CHECK(answer.worst.lo == doctest::Approx(3.89));
    CHECK(answer.worst.hi == doctest::Approx(4.01));
    CHECK(answer.come_off.value() == doctest::Approx(4.45));
    CHECK(answer.to_be_sure == doctest::Approx(4.51));
    CHECK(answer.left.at(0).left == doctest::Approx(5.49));
    CHECK(answer.left.at(0).verdict == stack::Verdict::fails);
    CHECK(answer.left.at(1).verdict == stack::Verdict::not_judged);
    CHECK(jam_of(13.97, 13.97).found == Found::seats);
    CHECK(!jam_of(13.97, 13.97).come_off);
    CHECK(jam_of(13.97, 13.93).found == Found::doubtful);
    CHECK(jam_of(13.97, 13.90).found == Found::stands_off);
    CHECK(jam_of(13.97, 14.00).found == Found::seats);
    CHECK(jam_of(13.97, 14.10).found == Found::wrong_way);
}
