// SPDX-License-Identifier: MIT
#include <trialfit/plan/search/plan.hpp>

#include <algorithm>
#include <stdexcept>
#include <utility>

#include <trialfit/plan/search/conflict.hpp>
#include <trialfit/plan/search/model.hpp>
#include <trialfit/plan/search/search.hpp>
#include <trialfit/plan/search/tolerances.hpp>
#include <trialfit/plan/settle/settle.hpp>

namespace trialfit::plan {

namespace {

void refuse_faults(const Problem& problem) {
    std::string all;
    for (const std::string& each : faults(problem))
        all += (all.empty() ? "" : "; ") + each;
    if (!all.empty()) throw std::invalid_argument(all);
}

// How many kinds of plan that tie with the first are counted at most.
constexpr std::size_t kMostTies = 24;
// Nodes for breaking ties, where proving the cost took fewer.
constexpr std::size_t kFewestTieNodes = 10000;

/// The cheapest plan and its rivals.
class Solver {
public:
    Solver(const Problem& problem, Clock& clock)
        : problem_(problem),
          clock_(clock),
          model_(problem, {}, &clock),
          aims_(std::any_of(problem.rows.begin(), problem.rows.end(),
                            [](const Row& row) { return row.aim.has_value(); })) {}

    Answer run(std::size_t top, bool why) {
        Answer answer;
        answer.proven = true;
        answer.bound = -kInfinity;
        std::vector<Kind> met;
        bool all_met = false;
        while (!all_met && wants_more(answer, top)) {
            Hunt hunt;
            hunt.excluded = met;
            hunt.most_nodes = clock_.watch().nodes;
            Catch caught = search(model_, hunt, clock_);
            answer.nodes += caught.nodes;
            if (answer.plans.empty()) answer.bound = caught.bound;
            const bool counts_only = answer.plans.size() == top;
            if (!counts_only) answer.proven = caught.proven;
            if (!caught.best || (counts_only && !caught.proven)) {
                all_met = caught.proven;
                break;
            }
            const bool untied = break_ties(hunt, caught, answer) && caught.proven;
            const Kind kind = kind_of(caught.best->selection);
            if (!less_of_a_kind(kind)) take(*caught.best, caught.proven, untied, top, answer);
            met.push_back(kind);
            all_met = kind.empty() || (!aims_ && caught.best->cost <= kSameCost);
        }
        if (!all_met && answer.plans.size() < top && clock_.was_stopped()) answer.proven = false;
        answer.more_ties = !all_met && answer.ties == shown_.size();
        if (why && answer.plans.empty() && answer.proven)
            answer.conflict = explain(problem_, clock_);
        answer.seconds = clock_.seconds();
        return answer;
    }

private:
    // Until there are `top` of them, and beyond that while what is found ties with the first.
    [[nodiscard]] bool wants_more(const Answer& answer, std::size_t top) {
        if (!answer.proven || clock_.stopped()) return false;
        if (answer.plans.size() < top) return true;
        return top > 1 && answer.ties == shown_.size() && answer.ties < kMostTies;
    }

    [[nodiscard]] static bool ties_with_first(const Candidate& found, const Answer& answer) {
        const Plan& first = answer.plans.front();
        return found.cost <= first.cost + kSameCost &&
               found.aim_distance <= first.aim_distance + kSameDistance;
    }

    void take(const Candidate& found, bool proven, bool untied, std::size_t top, Answer& answer) {
        if (answer.plans.size() < top) {
            answer.plans.push_back(to_plan(found, proven));
            answer.plans.back().untied = untied;
        }
        shown_.push_back(kind_of(found.selection));
        if (ties_with_first(found, answer)) ++answer.ties;
    }

    // What one kind shown makes when shims of seats that are set to an aim are left away.
    [[nodiscard]] bool less_of_a_kind(const Kind& kind) const {
        return std::any_of(shown_.begin(), shown_.end(), [&](const Kind& more) {
            return kind.cuts == more.cuts && includes(more, kind) &&
                   std::all_of(more.seats.begin(), more.seats.end(), [&](std::size_t q) {
                       return problem_.seats[q].set_to_aim ||
                              std::find(kind.seats.begin(), kind.seats.end(), q) !=
                                  kind.seats.end();
                   });
        });
    }

    // Among plans that cost the same: aims first, then shims, then order. The cost's weight only
    // keeps the search near them; `most_cost` is what holds it.
    // False when the search was cut short.
    bool break_ties(const Hunt& first, Catch& caught, Answer& answer) {
        if (!aims_ && !caught.tied) return true;
        Hunt hunt;
        hunt.goal = tie_goal(problem_);
        hunt.excluded = first.excluded;
        hunt.most_cost = caught.best->cost + kSameCost;
        hunt.tolerance = 2e-11;
        hunt.most_nodes = std::max(kFewestTieNodes, 2 * caught.nodes);
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

    static constexpr double kSameCost = 1e-9;
    static constexpr double kSameDistance = 1e-7;

    const Problem& problem_;
    Clock& clock_;
    Model model_;
    bool aims_;
    std::vector<Kind> shown_;  // and counted
};

}  // namespace

Answer solve(const Problem& problem, std::size_t top, const Watch& watch) {
    refuse_faults(problem);
    if (top == 0) throw std::invalid_argument("at least one plan must be asked for");
    Clock clock(watch);
    return Solver(problem, clock).run(top, true);
}

Answer solve_only(const Problem& problem, std::size_t top, Clock& clock) {
    refuse_faults(problem);
    return Solver(problem, clock).run(top, false);
}

Conflict conflict_of(const Problem& problem, Clock& clock) {
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
