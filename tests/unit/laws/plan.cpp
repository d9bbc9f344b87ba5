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
#include <trialfit/plan/from_job.hpp>
#include <trialfit/plan/job_plan.hpp>
#include <trialfit/stack/as_built.hpp>
#include <trialfit/stack/bounds.hpp>
#include <trialfit/stack/check.hpp>
#include <trialfit/stack/radial.hpp>
#include <trialfit/stack/states.hpp>
#include <trialfit/survey/survey.hpp>

using namespace trialfit;
using namespace trialfit::testing;

namespace {

constexpr double kSame = 1e-9;  // sums of the same sizes, in another order

// By how much each check passes in a decision: over all its demands in all states.
std::map<int, double> margins(const plan::JobProblem& problem, const plan::Demands& asked,
                              const Tried& tried) {
    std::map<int, double> least;
    const auto margin = [&](const plan::Demand& demand) {
        const stack::Range range = problem.judged(demand, tried.selection, tried.depths);
        return std::min(range.lo - demand.lower, demand.upper - range.hi);
    };
    const auto take = [&least](int check, double value) {
        if (check < 0) return;
        const auto [it, is_new] = least.try_emplace(check, value);
        if (!is_new) it->second = std::min(it->second, value);
    };
    for (const plan::Demand& demand : asked.all)
        if (demand.rounded_seat < 0) take(demand.check, margin(demand));
    for (const plan::Either& either : asked.either) {
        double best = -std::numeric_limits<double>::infinity();
        for (const std::vector<plan::Demand>& way : either.ways)
            best = std::max(best, margin(way.front()));
        if (!either.radial) take(either.ways.front().front().check, best);
    }
    return least;
}

// A clearance as the planner has it and as it is, in the state that each is of.
int compare_clearances(const plan::JobProblem& problem, const plan::Demands& asked,
                       const Tried& tried, const stack::CheckAnswer& answer) {
    int compared = 0;
    for (const plan::Demand& demand : asked.all) {
        if (demand.check >= 0 || demand.air_gap >= 0 || demand.rounded_seat >= 0) continue;
        const stack::Range mine = problem.judged(demand, tried.selection, tried.depths);
        for (const stack::Clearance& pair : answer.clearances) {
            if (pair.inboard + " to " + pair.outboard != demand.name || pair.state != demand.state)
                continue;
            CAPTURE(demand.name);
            const stack::Range theirs = stack::judged(pair.gap, answer.judge);
            CHECK(std::abs(mine.lo - theirs.lo) < kSame);
            CHECK(std::abs(mine.hi - theirs.hi) < kSame);
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
        for (const auto& [check, margin] : margins(problem, asked, tried)) {
            const stack::CheckResult& result = answer.checks.at(static_cast<std::size_t>(check));
            CAPTURE(result.name);
            CHECK(std::abs(margin - result.judged_margin) < kSame);
            ++counts.checks;
        }
        counts.clearances += compare_clearances(problem, asked, tried, answer);
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
