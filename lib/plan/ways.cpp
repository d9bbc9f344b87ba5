// SPDX-License-Identifier: MIT
#include <algorithm>
#include <limits>
#include <trialfit/plan/ways.hpp>
#include <tuple>
#include <utility>

namespace trialfit::plan {

namespace {

bool cuts_all_of(const Plan& plan, const Plan& cheaper) {
    for (std::size_t w = 0; w < plan.selection.cut.size(); ++w)
        if (cheaper.selection.cut[w] && !plan.selection.cut[w]) return false;
    return true;
}

// Takes in the plans of one more way to meet the demands of which any one is enough.
void take_in(Answer& all, Answer&& more, std::size_t top) {
    all.proven = all.proven && more.proven;
    all.bound = std::min(all.bound, more.bound);
    all.nodes += more.nodes;
    for (Plan& plan : more.plans)
        all.plans.push_back(std::move(plan));
    std::stable_sort(all.plans.begin(), all.plans.end(), [](const Plan& a, const Plan& b) {
        return std::tuple(a.cost, a.aim_distance, a.shims) <
               std::tuple(b.cost, b.aim_distance, b.shims);
    });
    std::vector<Plan> kept;
    for (Plan& plan : all.plans) {
        const bool adds_only = std::any_of(kept.begin(), kept.end(), [&](const Plan& cheaper) {
            return cuts_all_of(plan, cheaper);
        });
        if (!adds_only && kept.size() < top) kept.push_back(std::move(plan));
    }
    all.plans = std::move(kept);
}

constexpr std::size_t kMostWays = 256;

std::size_t ways_of(const std::vector<Either>& either) {
    std::size_t ways = 1;
    for (const Either& each : either)
        ways = std::min(ways * each.ways.size(), kMostWays + 1);
    return ways;
}

double gives(const std::optional<Conflict>& conflict) {
    return conflict && conflict->relaxed ? conflict->relaxed_by
                                         : std::numeric_limits<double>::infinity();
}

}  // namespace

EveryWay solve_every_way(const JobProblem& problem, const JobOptions& options) {
    const std::vector<Either>& either = problem.demands().either;
    if (either.empty() || ways_of(either) > kMostWays)
        return {.answer = solve(problem.problem(), options.top, options.watch), .which = {}};
    EveryWay all;
    all.answer.proven = true;
    all.answer.bound = std::numeric_limits<double>::infinity();
    std::vector<std::size_t> which(either.size(), 0);
    for (std::size_t e = 0; e < either.size();) {
        Answer one = solve(problem.choosing(which), options.top, options.watch);
        const bool nearer = gives(one.conflict) < gives(all.answer.conflict);
        if (one.conflict && (nearer || !all.answer.conflict)) {
            all.answer.conflict = std::move(one.conflict);
            all.which = which;
        }
        take_in(all.answer, std::move(one), options.top);
        for (e = 0; e < either.size() && ++which[e] == either[e].ways.size(); ++e)
            which[e] = 0;
    }
    if (!all.answer.plans.empty()) all.answer.conflict.reset();
    return all;
}

}  // namespace trialfit::plan
