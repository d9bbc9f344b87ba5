// SPDX-License-Identifier: MIT
// A plan's windows against the program: readings inside them, recorded as the record is written,
// make a job that holds; and a plan written into a job is planned, not done.
#include <doctest/doctest.h>
#include <fmt/format.h>

#include <filesystem>
#include <random>
#include <support/examples.hpp>
#include <trialfit/job/validity/warnings.hpp>
#include <trialfit/plan/job/job_plan.hpp>
#include <trialfit/sheet/write_back.hpp>
#include <trialfit/stack/change/as_built.hpp>
#include <trialfit/survey/survey.hpp>
#include <utility>

#include "support/messages.hpp"

using namespace trialfit;

namespace {

struct Example {
    std::string name;
    std::string text;
    job::Job job;  // as built
    stack::Options options;
    plan::PlanAnswer answer;
};

// Every example that has a plan which cuts or skims.
const std::vector<Example>& planned_examples() {
    static const std::vector<Example> all = [] {
        std::vector<Example> found;
        for (const auto& entry :
             std::filesystem::directory_iterator(TRIALFIT_SOURCE_DIR "/examples")) {
            if (entry.path().extension() != ".yaml") continue;
            Example each{.name = entry.path().filename().string(),
                         .text = testing::text_of(entry.path())};
            const job::Job written = testing::job_in(entry.path());
            auto built = stack::as_built(written, written.record.size());
            if (built.index() != 0) continue;
            each.job = std::get<job::Job>(std::move(built));
            const auto evidence = survey::evidence(each.job);
            if (evidence.index() != 0) continue;
            each.options.readings = std::get<0>(evidence);
            const auto model = stack::model_for(each.job, each.options);
            if (model.index() != 0) continue;
            plan::JobOptions asked{.stack = each.options, .top = 2};
            asked.watch.nodes = 20000;
            each.answer = plan::plan(std::get<stack::Model>(model), asked);
            const bool any =
                !each.answer.plans.empty() && (!each.answer.plans.front().cuts.empty() ||
                                               !each.answer.plans.front().skims.empty());
            if (any) found.push_back(std::move(each));
        }
        return found;
    }();
    return all;
}

stack::CheckAnswer judged(const std::string& text, const std::string& name) {
    const auto outcome = sheet::judged(text, name, {});
    if (const auto* complaints = std::get_if<job::Complaints>(&outcome))
        FAIL(complaints->front().fault);
    return std::get<stack::CheckAnswer>(outcome);
}

// A reading as a person writes it down.
template <typename Made>
std::string reading_in(const Made& made, double share) {
    const double at = made.window.lo + share * (made.window.hi - made.window.lo);
    return made.read_by.empty() || made.read_within > made.holds + 1e-9 || made.holds == 0.0
               ? fmt::format("{:.6f} ±{:.6f}", at, made.read_within)
               : fmt::format("{:.6f} by {}", at, made.read_by);
}

}  // namespace

TEST_CASE("any readings inside all windows, recorded, hold") {
    std::mt19937 random(3);
    int tried = 0;
    for (const Example& each : planned_examples()) {
        CAPTURE(each.name);
        for (const plan::PlanMade& plan : each.answer.plans) {
            for (int shot = 0; shot < 20; ++shot) {
                reading::RecordedEntry entry = sheet::planned_entry(plan, "2999-01-01");
                entry.planned = false;
                const auto share = [&] {
                    return shot < 10 ? static_cast<double>(
                                           std::uniform_int_distribution<int>(0, 1)(random))
                                     : std::uniform_real_distribution<double>(0.0, 1.0)(random);
                };
                for (std::size_t c = 0; c < plan.cuts.size(); ++c) {
                    REQUIRE_FALSE(plan.cuts[c].no_window);
                    entry.as_cut[c].second = reading_in(plan.cuts[c], share());
                }
                for (std::size_t s = 0; s < plan.skims.size(); ++s)
                    entry.as_skimmed[s].second = reading_in(plan.skims[s], share());
                const reading::Edited edited = reading::edited(each.text, {entry});
                REQUIRE(edited.text);
                CAPTURE(*edited.text);
                const stack::CheckAnswer answer = judged(*edited.text, each.name);
                CHECK(answer.verdict == stack::Verdict::holds);
                CHECK(answer.warnings.empty());
                ++tried;
            }
        }
    }
    CHECK(tried >= 50);
}

TEST_CASE("a plan written into a job holds, is planned, and ends when its sizes are recorded") {
    for (const Example& each : planned_examples()) {
        CAPTURE(each.name);
        const plan::PlanMade& plan = each.answer.plans.front();
        const reading::RecordedEntry planned = sheet::planned_entry(plan, "2999-01-01");
        const reading::Edited edited = reading::edited(each.text, {planned});
        REQUIRE(edited.text);
        const stack::CheckAnswer answer = judged(*edited.text, each.name);
        CHECK(sheet::findings_hold(answer));
        REQUIRE_FALSE(answer.warnings.empty());
        CHECK(testing::message<job::PlannedInForce>(answer.warnings.front()) != nullptr);
        reading::RecordedEntry done = planned;
        done.planned = false;
        const reading::Edited after = reading::edited(*edited.text, {done});
        REQUIRE(after.text);
        const stack::CheckAnswer built = judged(*after.text, each.name);
        CHECK(built.warnings.empty());
        REQUIRE(built.checks.size() == answer.checks.size());
        for (std::size_t c = 0; c < built.checks.size(); ++c)
            CHECK(built.checks[c].value.nominal ==
                  doctest::Approx(answer.checks[c].value.nominal).epsilon(1e-9));
    }
}

TEST_CASE("what is told of a cut is what is planned and written, and its figures add up") {
    for (const Example& each : planned_examples()) {
        CAPTURE(each.name);
        for (const plan::PlanMade& plan : each.answer.plans) {
            const reading::RecordedEntry entry = sheet::planned_entry(plan, "2999-01-01");
            for (std::size_t c = 0; c < plan.cuts.size(); ++c) {
                const plan::CutMade& cut = plan.cuts[c];
                CHECK(entry.as_cut[c].second.starts_with(fmt::format("{:g}", cut.finish)));
                CHECK(cut.finish - cut.holds >= cut.keep - 1e-9);
                const plan::Passes& passes = cut.passes;
                CHECK(passes.rough * passes.depth + passes.last ==
                      doctest::Approx(cut.remove).epsilon(0.02));
                if (passes.rough > 0) CHECK(passes.last <= passes.depth + 1e-9);
            }
        }
    }
}
