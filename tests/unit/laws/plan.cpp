// SPDX-License-Identifier: MIT
// What the planner takes a job to be against the job done and assembled anew, on every example.
#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <limits>
#include <map>
#include <optional>
#include <random>
#include <support/examples.hpp>
#include <support/tried_plan.hpp>

#include <trialfit/plan/job/from_job.hpp>
#include <trialfit/plan/job/job_plan.hpp>
#include <trialfit/sheet/by_odds.hpp>
#include <trialfit/stack/bounds.hpp>
#include <trialfit/stack/change/as_built.hpp>
#include <trialfit/stack/change/carry_out.hpp>
#include <trialfit/stack/check/check.hpp>
#include <trialfit/stack/radial/radial.hpp>
#include <trialfit/stack/states.hpp>
#include <trialfit/survey/survey.hpp>
#include <utility>
#include <vector>

using namespace trialfit;
using namespace trialfit::testing;

namespace {

constexpr double kSame = 1e-9;  // sums of the same sizes, in another order

// By how much each check passes in a decision: over all its demands in all states.
std::map<std::size_t, double> margins(const plan::JobProblem& problem, const plan::Demands& asked,
                                      const Tried& tried) {
    std::map<std::size_t, double> least;
    const auto margin = [&](const plan::PlanDemand& demand) {
        const stack::Range range = problem.judged(demand, tried.selection, tried.depths);
        return std::min(range.lo - demand.lower, demand.upper - range.hi);
    };
    const auto take = [&least](const plan::PlanDemand& demand, double value) {
        if (!demand.of || !std::holds_alternative<stack::CheckId>(*demand.of)) return;
        const auto [it, is_new] =
            least.try_emplace(std::get<stack::CheckId>(*demand.of).index, value);
        if (!is_new) it->second = std::min(it->second, value);
    };
    for (const plan::PlanDemand& demand : asked.all)
        if (!demand.rounded_seat) take(demand, margin(demand));
    for (const plan::Either& either : asked.either) {
        double best = -std::numeric_limits<double>::infinity();
        for (const std::vector<plan::PlanDemand>& way : either.ways)
            best = std::max(best, margin(way.front()));
        if (!either.radial) take(either.ways.front().front(), best);
    }
    return least;
}

// Work on the hub changes how far it is drawn home, which the planner takes as it is now.
double other_draw_up(const stack::Model& now, const stack::Model& after) {
    const quantity::Size* const one = now.known_draw_up();
    const quantity::Size* const other = after.known_draw_up();
    if (one == nullptr || other == nullptr) return 0.0;
    return std::max(std::abs(one->lower - other->lower), std::abs(one->upper - other->upper));
}

// A clearance as the planner has it and as it is, in the state that each is of.
int compare_clearances(const plan::JobProblem& problem, const plan::Demands& asked,
                       const Tried& tried, const stack::CheckAnswer& answer, double same) {
    int compared = 0;
    for (const plan::PlanDemand& demand : asked.all) {
        if (demand.of && !std::holds_alternative<stack::ClearanceId>(*demand.of)) continue;
        const stack::Range mine = problem.judged(demand, tried.selection, tried.depths);
        for (const stack::Clearance& pair : answer.clearances) {
            if (pair.inboard + " to " + pair.outboard != demand.name || pair.state != demand.state)
                continue;
            CAPTURE(demand.name);
            const stack::Range theirs = stack::judged(pair.gap.least(), answer.judge);
            CHECK(std::abs(mine.lo - theirs.lo) < same);
            CHECK(std::abs(mine.hi - theirs.hi) < same);
            ++compared;
        }
    }
    return compared;
}

struct Counts {
    int checks = 0;
    int clearances = 0;
    int refused = 0;
};

// Decisions at random: every check's margin and every clearance.
void compare(const stack::Model& model, const stack::Options& options, std::mt19937& random,
             Counts& counts) {
    const plan::Demands asked = plan::demands(model);
    const plan::JobProblem problem(model, asked,
                                   {.judge = options.judge, .inflate = options.inflate});
    for (int n = 0; n < 12; ++n) {
        const Tried tried = Trying(problem, random).run();
        const job::Job after = stack::carried_out(model, tried.changes);
        const auto built = stack::model_after(model, after);
        REQUIRE(built.index() == 0);
        const stack::CheckAnswer answer = stack::check(std::get<stack::Model>(built), options);
        const double same = kSame + other_draw_up(model, std::get<stack::Model>(built));
        for (const auto& [check, margin] : margins(problem, asked, tried)) {
            const stack::CheckResult& result = answer.checks.at(static_cast<std::size_t>(check));
            CAPTURE(result.name);
            CHECK(std::abs(margin - result.judged_margin) < same);
            ++counts.checks;
        }
        counts.clearances += compare_clearances(problem, asked, tried, answer, same);
    }
}

}  // namespace

TEST_CASE("every example: the planner's rows say what check says once the work is done") {
    std::mt19937 random(17);
    Counts counts;
    for (const job::Job& written : every_example()) {
        CAPTURE(written.file);
        const auto as_built = stack::as_built(written, written.record.size());
        const job::Job& job = std::get<job::Job>(as_built);
        for (const bool bound : {false, true}) {
            for (const stack::Judge judge : {stack::Judge::worst, stack::Judge::rss}) {
                stack::Options options{.judge = judge, .all_pairs = true};
                if (bound) options.readings = std::get<0>(survey::evidence(job));
                if (bound && options.readings.empty()) continue;
                const auto model = stack::model_for(job, options);
                if (model.index() != 0) {
                    ++counts.refused;
                    continue;
                }
                compare(std::get<stack::Model>(model), options, random, counts);
            }
        }
    }
    CHECK(counts.checks > 600);
    CHECK(counts.clearances > 1500);
    CHECK(counts.refused < 4);  // readings that nothing can give
}

namespace {

// As the command line has the planner judge by odds.
plan::JobOptions by_odds(double level) {
    plan::JobOptions asked{.top = 1};
    sheet::judge_by_odds(level, {}, asked);
    return asked;
}

// Poles that magnets must reach over at both ends; a plate under the rotor is cut to bring them
// there. Two ends and the poles' own length must be long enough at once.
job::Job both_ends() {
    constexpr const char* kText = R"(trialfit: 1
units: mm
parts:
  - part: case
    faces: {floor: zero}
  - part: stator
    sits: {face: back, against: case.floor}
    faces: {back: zero, in: 10 ±0.3 from back, out: 20 ±0.3 from back}
    rings: {poles: {from: in, to: out, bore: 20, od: 40}}
  - part: plate
    sits: {face: back, against: case.floor}
    faces: {back: zero, front: 5 exact from back}
    cuts:
      - {face: front, measure: back, keep: 1, holds: 0}
  - part: rotor
    sits: {face: seat, against: plate.front}
    faces: {seat: zero, mouth: 6.70 exact from seat, cup: 16.70 exact from seat}
    rings: {magnets: {from: mouth, to: cup, bore: 50, od: 60}}
checks:
  - {check: over the poles, overlap: {of: stator.poles, by: rotor.magnets}, at_least: 9.825}
)";
    const reading::Outcome outcome = reading::read_job(kText, "both-ends.yaml");
    REQUIRE(outcome.job);
    return *outcome.job;
}

}  // namespace

TEST_CASE("by odds: what hangs on several differences is found where it is, and never proven") {
    const job::Job job = both_ends();
    const auto built = stack::Model::of(job);
    const auto& model = std::get<stack::Model>(built);
    // The plate cut to every hundredth: what it costs, and the chance that the magnets reach.
    std::vector<std::pair<double, double>> tried;
    for (int hundredths = 150; hundredths <= 190; ++hundredths) {
        const double off = hundredths / 100.0;
        stack::Changes changes;
        changes.cuts.push_back({.part = 2, .face = 1, .measure = 0, .size = worked(5.0 - off)});
        const job::Job after = stack::carried_out(model, changes);
        stack::CheckAnswer answer =
            stack::check(std::get<stack::Model>(stack::model_after(model, after)), {});
        by_odds(0.9).judge_after(answer, after);
        tried.emplace_back(1.0 + 0.1 * off, *answer.checks.front().odds);
    }
    for (const double level : {0.6, 0.7, 0.8, 0.84, 0.86, 0.88, 0.95}) {
        CAPTURE(level);
        const auto cheapest = std::find_if(tried.begin(), tried.end(),
                                           [&](const auto& each) { return each.second >= level; });
        const plan::PlanAnswer answer = plan::plan(model, by_odds(level));
        if (cheapest == tried.end()) {
            CHECK(answer.plans.empty());
            continue;
        }
        REQUIRE(answer.plans.size() == 1);
        const plan::PlanMade& found = answer.plans.front();
        CHECK(found.after.verdict == stack::Verdict::holds);
        // Within a hundredth of metal of the best, which costs a thousandth.
        CHECK(std::abs(found.cost - cheapest->first) < 0.0015);
        CHECK(answer.bound <= cheapest->first + kSame);
        CHECK_FALSE((answer.proven && found.cost > cheapest->first + kSame));
    }
}

TEST_CASE("plans shown are each of another kind, shims left where they lie included") {
    // With no shims under the plate two are laid under the rotor, of which one lies there; with one
    // under the plate, one. Left as they lie, those under the plate make the two alike.
    constexpr const char* kText = R"(trialfit: 1
units: mm
parts:
  - part: case
    faces: {floor: zero}
  - part: plate
    sits: {face: back, against: case.floor, shims: {stock: [0.2, 0.5], at_most: 2, fitted: [0.5, 0.2]}}
    faces: {back: zero, front: 10 exact from back}
  - part: rotor
    sits: {face: boss, against: plate.front, shims: {stock: [0.2, 1.0], at_most: 2, fitted: [0.2]}}
    faces: {boss: zero, rim: 20 exact from boss}
checks:
  - {check: rim, gap: [plate.front, rotor.rim], at_least: 20.9}
  - {check: whole, gap: [case.floor, rotor.rim], at_least: 31.1}
)";
    const reading::Outcome outcome = reading::read_job(kText, "alike.yaml");
    REQUIRE(outcome.job);
    const auto built = stack::Model::of(*outcome.job);
    const plan::PlanAnswer answer = plan::plan(std::get<stack::Model>(built), {});
    CHECK(answer.plans.size() == 1);
    CHECK(answer.ties == 1);
    CHECK(answer.proven);
}
