// SPDX-License-Identifier: MIT
#include <doctest/doctest.h>

#include <support/examples.hpp>
#include <trialfit/reading/edit/edit.hpp>
#include <trialfit/sheet/before_after.hpp>
#include <trialfit/sheet/checksum.hpp>
#include <trialfit/sheet/sheet.hpp>
#include <trialfit/stack/change/as_built.hpp>

using namespace trialfit;

namespace {

constexpr const char* kDemo = TRIALFIT_SOURCE_DIR "/examples/pump-engine.yaml";

sheet::SheetAnswer sheet_of(const job::Job& job) {
    return std::get<sheet::SheetAnswer>(sheet::sheet(job, {}, "text"));
}

job::Job recorded(std::size_t in_force) {
    reading::RecordedEntry first{.date = "2026-11-25", .note = "first cut"};
    first.as_cut.emplace_back("plate.front", "5.55 by caliper");
    reading::RecordedEntry second{.date = "2026-11-26"};
    second.fitted.emplace_back("stator", std::vector<std::string>{"0.5", "0.3"});
    const reading::Edited edited = reading::edited(testing::text_of(kDemo), {first, second});
    REQUIRE(edited.text);
    const reading::Outcome outcome = reading::read_job(*edited.text, "demo.yaml");
    REQUIRE(outcome.job);
    return std::get<job::Job>(stack::as_built(*outcome.job, in_force));
}

}  // namespace

TEST_CASE("a file's checksum is SHA-256") {
    // FIPS 180-4's example messages, NIST "Examples with Intermediate Values", SHA-256.
    CHECK(sheet::sha256("abc") ==
          "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad");
    CHECK(sheet::sha256("abcdbcdecdefdefgefghfghighijhijkijkljklmklmnlmnomnopnopq") ==
          "248d6a61d20638b8e5c026930c3e6039a33ce45964ff2167f6ecedd419db06c1");
}

TEST_CASE("a sheet tells the entries in force, and how many came later") {
    const sheet::SheetAnswer now = sheet_of(recorded(2));
    REQUIRE(now.history.size() == 2);
    CHECK(now.later_entries == 0);
    CHECK(now.history[0].note == "first cut");
    using Kind = sheet::WorkEntered::Kind;
    REQUIRE(now.history[0].work.size() == 1);
    CHECK(now.history[0].work[0].kind == Kind::cut);
    CHECK(now.history[0].work[0].what == "plate.front");
    CHECK(now.history[0].work[0].size == "5.55 by caliper");
    CHECK_FALSE(now.history[0].work[0].planned);
    REQUIRE(now.history[1].work.size() == 1);
    CHECK(now.history[1].work[0].kind == Kind::shims);
    CHECK(now.history[1].work[0].what == "stator");
    CHECK(now.history[1].work[0].size == "0.5 + 0.3");
    const sheet::SheetAnswer then = sheet_of(recorded(1));
    CHECK(then.history.size() == 1);
    CHECK(then.later_entries == 1);
    REQUIRE(then.section);
    CHECK(then.section->later_entries == 1);
}

TEST_CASE("a sheet carries the plan, or why there is none, or that none is needed") {
    const sheet::SheetAnswer jammed = sheet_of(testing::job_in(kDemo));
    REQUIRE(jammed.plan);
    REQUIRE_FALSE(jammed.plan->plans.empty());
    REQUIRE(jammed.section);
    CHECK(jammed.section->removals.size() == jammed.plan->plans.front().cuts.size());
    const sheet::SheetAnswer stuck =
        sheet_of(testing::job_in(TRIALFIT_SOURCE_DIR "/examples/no-way-out.yaml"));
    REQUIRE(stuck.plan);
    CHECK(stuck.plan->plans.empty());
    CHECK(stuck.plan->conflict);
    const sheet::SheetAnswer fits =
        sheet_of(testing::job_in(TRIALFIT_SOURCE_DIR "/examples/fits-cleanly.yaml"));
    REQUIRE(fits.plan);
    CHECK(fits.plan->plans.front().cuts.empty());
}

TEST_CASE("before and after: the finish sizes are drawn, and nothing twice where nothing changes") {
    const auto both =
        std::get<sheet::BeforeAfter>(sheet::before_and_after(testing::job_in(kDemo), {}));
    REQUIRE(both.after);
    CHECK(both.before.check.verdict == stack::Verdict::fails);
    CHECK(both.after->check.verdict == stack::Verdict::holds);
    CHECK(both.after->fouls.empty());
    double off = 0.0;
    for (const draw::Removal& each : both.before.removals)
        off += each.amount;
    // Parts by parts, the plate loses on paper what the plan takes off it.
    CHECK(off > 4.0);
    const auto none = std::get<sheet::BeforeAfter>(sheet::before_and_after(
        testing::job_in(TRIALFIT_SOURCE_DIR "/examples/fits-cleanly.yaml"), {}));
    CHECK_FALSE(none.after);
    CHECK(none.before.removals.empty());
}
