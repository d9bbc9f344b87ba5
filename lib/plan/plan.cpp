// SPDX-License-Identifier: MIT
#include <trialfit/plan/plan.hpp>

#include <algorithm>
#include <stdexcept>
#include <utility>

#include <trialfit/plan/conflict.hpp>
#include <trialfit/plan/model.hpp>
#include <trialfit/plan/search.hpp>
#include <trialfit/plan/settle.hpp>

namespace trialfit::plan {

namespace {

void refuse_faults(const Problem& problem) {
    std::string all;
    for (const std::string& each : faults(problem))
        all += (all.empty() ? "" : "; ") + each;
    if (!all.empty()) throw std::invalid_argument(all);
}

std::vector<std::size_t> cuts_made(const Selection& selection) {
    std::vector<std::size_t> made;
    for (std::size_t c = 0; c < selection.cut.size(); ++c) {
        if (selection.cut[c]) made.push_back(c);
    }
    return made;
}

/// The cheapest plan and its rivals.
class Solver {
public:
    Solver(const Problem& problem, const Watch& watch)
        : problem_(problem), clock_(watch), model_(problem) {}

    Answer run(std::size_t top, bool why) {
        Answer answer;
        answer.proven = true;
        std::vector<std::vector<std::size_t>> shown;
        while (answer.plans.size() < top && answer.proven) {
            Hunt hunt;
            hunt.excluded = shown;
            hunt.most_nodes = clock_.watch().nodes;
            Catch caught = search(model_, hunt, clock_);
            answer.nodes += caught.nodes;
            answer.proven = caught.proven;
            if (answer.plans.empty()) answer.bound = caught.bound;
            if (!caught.best) break;
            const bool untied = caught.proven && break_ties(hunt, caught, answer);
            answer.plans.push_back(to_plan(*caught.best, caught.proven));
            answer.plans.back().untied = untied;
            shown.push_back(cuts_made(caught.best->selection));
            if (shown.back().empty()) break;
        }
        if (why && answer.plans.empty() && answer.proven)
            answer.conflict = explain(problem_, clock_);
        answer.seconds = clock_.seconds();
        return answer;
    }

private:
    // Among plans that cost the same: aims first, then shims, then order. The cost's weight only
    // keeps the search near them; `most_cost` is what holds it.
    // False when the search was cut short.
    bool break_ties(const Hunt& first, Catch& caught, Answer& answer) {
        const bool aims = std::any_of(problem_.rows.begin(), problem_.rows.end(),
                                      [](const Row& row) { return row.aim.has_value(); });
        if (!aims && !caught.tied) return true;
        Hunt hunt;
        hunt.goal = {100.0, 1.0, 1e-7, 1e-9};
        hunt.excluded = first.excluded;
        hunt.most_cost = caught.best->cost + 1e-9;
        hunt.tolerance = 2e-11;
        hunt.most_nodes = std::max(std::size_t{10000}, 2 * caught.nodes);
        hunt.known = settle(model_, hunt.goal, caught.best->selection, hunt.most_cost);
        Catch nearest = search(model_, hunt, clock_);
        answer.nodes += nearest.nodes;
        if (nearest.best) caught.best = std::move(nearest.best);
        return nearest.proven;
    }

    [[nodiscard]] Plan to_plan(const Candidate& found, bool proven) const {
        Plan plan;
        plan.cost = found.cost;
        plan.selection = found.selection;
        plan.depths = found.depths;
        plan.rows = outcomes(problem_, found.selection, found.depths);
        plan.aim_distance = found.aim_distance;
        plan.shims = found.shims;
        plan.proven = proven;
        return plan;
    }

    const Problem& problem_;
    Clock clock_;
    Model model_;
};

}  // namespace

Answer solve(const Problem& problem, std::size_t top, const Watch& watch) {
    refuse_faults(problem);
    if (top == 0) throw std::invalid_argument("at least one plan must be asked for");
    return Solver(problem, watch).run(top, true);
}

Answer solve_only(const Problem& problem, std::size_t top, const Watch& watch) {
    refuse_faults(problem);
    return Solver(problem, watch).run(top, false);
}

Conflict conflict_of(const Problem& problem, const Watch& watch) {
    Clock clock(watch);
    return explain(problem, clock);
}

std::vector<RowOutcome> outcomes(const Problem& problem, const Selection& selection,
                                 const std::vector<double>& depths) {
    const Model model(problem);
    std::vector<RowOutcome> outcomes;
    for (std::size_t r = 0; r < problem.rows.size(); ++r) {
        RowOutcome& outcome = outcomes.emplace_back();
        const Allowed allowed = model.allowed(r, selection);
        outcome.middle = middle_of(problem, r, selection, depths);
        outcome.margin = model.margin(model.units_of(r, selection));
        outcome.above_lower = outcome.middle - allowed.lower;
        outcome.below_upper = allowed.upper - outcome.middle;
    }
    return outcomes;
}

}  // namespace trialfit::plan
