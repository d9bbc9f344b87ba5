// SPDX-License-Identifier: MIT
// Planned work, and limits passed, by hand.
#include <doctest/doctest.h>

#include <trialfit/job/validity/warnings.hpp>
#include <trialfit/reading/read.hpp>
#include <trialfit/stack/change/as_built.hpp>
#include <trialfit/stack/check/check.hpp>

#include "support/messages.hpp"

using namespace trialfit;

namespace {

// A plate 10 thick under a disc: the gap from its front to the disc is 15 less the plate.
job::Job built(const std::string& record) {
    const std::string text = R"(trialfit: 1
units: mm
gauges: {caliper: 0.03}
parts:
  - part: case
    faces: {floor: zero, top: 15 exact from floor}
  - part: plate
    sits: {face: back, against: case.floor}
    faces: {back: zero, front: 10 exact from back}
    cuts: [{face: front, measure: back, keep: 5.5, holds: 0.03}]
    rings: {disc: {from: back, to: front, bore: 20, od: 90 exact}}
    skims: [{ring: disc, turn: od, keep: 30, until: 85, holds: 0.02}]
checks:
  - {check: room, gap: [plate.front, case.top], at_least: 9}
)" + record;
    const reading::Outcome outcome = reading::read_job(text, "planned.yaml");
    for (const job::Complaint& each : outcome.complaints)
        INFO(each.fault);
    REQUIRE(outcome.job);
    return std::get<job::Job>(stack::as_built(*outcome.job, outcome.job->record.size()));
}

stack::CheckAnswer checked_plan(const job::Job& job) {
    return std::get<stack::CheckAnswer>(stack::check(job, {}));
}

}  // namespace

TEST_CASE("planned work is carried out, and told of as not done") {
    const job::Job job = built(
        "record:\n  - {date: 2026-01-01, planned: true, as_cut: {plate.front: 5.53 ±0.03}}\n");
    REQUIRE(job.planned.size() == 1);
    const auto planned = job::planned_warning(job, true);
    REQUIRE(planned);
    CHECK(planned->set_aside);
    REQUIRE(planned->work.size() == 1);
    CHECK(planned->work.front().kind == job::PlannedWork::Kind::cut);
    CHECK(planned->work.front().what == "plate.front");
    CHECK(planned->work.front().to == "5.53 ±0.03");
    CHECK(job.before->planned.empty());
    CHECK(checked_plan(job).checks.front().value.nominal == doctest::Approx(15 - 5.53));
    CHECK(checked_plan(*job.before).checks.front().value.nominal == doctest::Approx(5));
    const stack::CheckAnswer answer = checked_plan(job);
    const auto* const told = testing::message<job::PlannedInForce>(answer.warnings.front());
    REQUIRE(told != nullptr);
    CHECK_FALSE(told->set_aside);
}

TEST_CASE("a size recorded later stands in the place of a planned one, larger or smaller") {
    for (const char* size : {"5.60", "5.52"}) {
        const job::Job job = built(std::string("record:\n  - {date: 2026-01-01, planned: true, "
                                               "as_cut: {plate.front: 5.56 exact}}\n"
                                               "  - {date: 2026-01-02, as_cut: {plate.front: ") +
                                   size + " exact}}\n");
        CHECK(job.planned.empty());
        CHECK(job::warnings(job).empty());
        CHECK(checked_plan(job).checks.front().value.nominal ==
              doctest::Approx(15 - std::stod(size)));
    }
}

TEST_CASE("a later plan stands in the place of an earlier one") {
    const job::Job job = built(
        "record:\n  - {date: 2026-01-01, planned: true, as_skimmed: {plate.disc: 88 ±0.02}}\n"
        "  - {date: 2026-01-02, planned: true, as_cut: {plate.front: 5.6 exact}}\n");
    REQUIRE(job.planned.size() == 1);
    CHECK(job.planned.front().what == "plate.front");
    CHECK(job.parts[1].rings.front().outside.size.nominal == 90);
}

TEST_CASE("the changes of a plan are those that nobody has recorded since") {
    const std::string plan =
        "record:\n  - {date: 2026-01-01, planned: true, as_cut: {plate.front: 5.6 exact}, "
        "as_skimmed: {plate.disc: 88 exact}}\n";
    const stack::Changes whole = stack::planned_changes(built(plan));
    REQUIRE(whole.cuts.size() == 1);
    CHECK(whole.cuts.front().measure == 0);
    CHECK(whole.cuts.front().size.size.nominal == doctest::Approx(5.6));
    REQUIRE(whole.skims.size() == 1);
    CHECK(whole.skims.front().size.size.nominal == doctest::Approx(88));
    const stack::Changes rest = stack::planned_changes(
        built(plan + "  - {date: 2026-01-02, as_cut: {plate.front: 5.61 exact}}\n"));
    CHECK(rest.cuts.empty());
    CHECK(rest.skims.size() == 1);
    CHECK(stack::planned_changes(built("")).cuts.empty());
}

TEST_CASE("a keep that was passed fails, and may be passed is doubtful") {
    const auto keep = [](const char* size) {
        return built(std::string("record:\n  - {date: 2026-01-01, as_cut: {plate.front: ") + size +
                     "}}\n");
    };
    const stack::CheckAnswer passed = checked_plan(keep("5.21 by caliper"));
    CHECK(passed.verdict == stack::Verdict::fails);
    const auto* const limit = testing::message<job::LimitPassed>(passed.warnings.front());
    REQUIRE(limit != nullptr);
    CHECK(limit->kind == job::LimitPassed::Kind::keep);
    CHECK(limit->what == "plate.front");
    CHECK(limit->is == doctest::Approx(5.21));
    CHECK(limit->limit == 5.5);
    CHECK(limit->surely);
    CHECK(checked_plan(keep("5.52 by caliper")).verdict == stack::Verdict::doubtful);
    CHECK(checked_plan(keep("5.53 by caliper")).verdict == stack::Verdict::holds);
    CHECK(checked_plan(keep("5.5 exact")).verdict == stack::Verdict::holds);
}

TEST_CASE("a wall and a diameter that were passed fail likewise") {
    const auto skimmed = [](const char* size) {
        return built(
            std::string("record:\n  - {date: 2026-01-01, as_cut: {plate.front: 5.6 exact}, "
                        "as_skimmed: {plate.disc: ") +
            size + "}}\n");
    };
    CHECK(checked_plan(skimmed("86 exact")).verdict == stack::Verdict::holds);
    CHECK(checked_plan(skimmed("85.02 by caliper")).verdict == stack::Verdict::doubtful);
    const stack::CheckAnswer passed = checked_plan(skimmed("84.9 exact"));
    CHECK(passed.verdict == stack::Verdict::fails);
    const auto* const limit = testing::message<job::LimitPassed>(passed.warnings.front());
    REQUIRE(limit != nullptr);
    CHECK(limit->kind == job::LimitPassed::Kind::until_outside);
    CHECK(limit->what == "plate.disc");
    CHECK(limit->is == doctest::Approx(84.9));
    CHECK(limit->limit == 85.0);
    // (79.9 - 20)/2 = 29.95 of 30
    CHECK(checked_plan(skimmed("79.9 exact")).warnings.size() == 2);
}
