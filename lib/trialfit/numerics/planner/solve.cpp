// SPDX-License-Identifier: MIT
#include <trialfit/numerics/planner/solve.hpp>

#include <algorithm>
#include <stdexcept>
#include <utility>

#include <trialfit/numerics/planner/conflict.hpp>
#include <trialfit/numerics/planner/search.hpp>
#include <trialfit/numerics/planner/search_model.hpp>
#include <trialfit/numerics/planner/solve_amounts.hpp>
#include <trialfit/numerics/planner/tolerances.hpp>

namespace trialfit::numerics {

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
    Solver(const Problem& problem, Deadline& clock)
        : problem_(problem),
          clock_(clock),
          model_(problem, {}, &clock),
          aims_(std::any_of(problem.rows.begin(), problem.rows.end(),
                            [](const ConstraintRow& row) { return row.aim.has_value(); })) {}

    SolveResult run(std::size_t top, bool why) {
        SolveResult answer;
        answer.proven = true;
        answer.bound = -kInfinity;
        std::vector<PlanKind> met;
        bool all_met = false;
        while (!all_met && wants_more(answer, top)) {
            SearchOptions hunt;
            hunt.excluded = met;
            hunt.most_nodes = clock_.watch().nodes;
            SearchResult caught = search(model_, hunt, clock_);
            answer.nodes += caught.nodes;
            if (answer.plans.empty()) answer.bound = caught.bound;
            const bool counts_only = answer.plans.size() == top;
            if (!counts_only) answer.proven = caught.proven;
            if (!caught.best || (counts_only && !caught.proven)) {
                all_met = caught.proven;
                break;
            }
            const bool untied = break_ties(hunt, caught, answer) && caught.proven;
            const PlanKind kind = kind_of(caught.best->selection);
            if (!less_of_a_kind(kind)) take(*caught.best, caught.proven, untied, top, answer);
            met.push_back(kind);
            all_met = kind.empty() || (!aims_ && adds_nothing(caught.best->selection));
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
    [[nodiscard]] bool wants_more(const SolveResult& answer, std::size_t top) {
        if (!answer.proven || clock_.stopped()) return false;
        if (answer.plans.size() < top) return true;
        return top > 1 && answer.ties == shown_.size() && answer.ties < kMostTies;
    }

    [[nodiscard]] static bool ties_with_first(const PricedSelection& found,
                                              const SolveResult& answer) {
        const Solution& first = answer.plans.front();
        return found.cost <= first.cost + kSameCost &&
               found.aim_distance <= first.aim_distance + kSameDistance;
    }

    // Nothing is done, and no item fitted but what may lie in its bin already: any other plan only
    // adds to it.
    [[nodiscard]] bool adds_nothing(const Selection& selection) const {
        const auto lies_there = [&](std::size_t kind) {
            const StockItem& item = problem_.stock[kind];
            return item.pieces == 1 && item.price == 0.0;
        };
        return kind_of(selection).activities.empty() &&
               std::all_of(selection.stacks.begin(), selection.stacks.end(),
                           [&](const std::vector<std::size_t>& stack) {
                               return std::all_of(stack.begin(), stack.end(), lies_there);
                           });
    }

    void take(const PricedSelection& found, bool proven, bool untied, std::size_t top,
              SolveResult& answer) {
        if (answer.plans.size() < top) {
            answer.plans.push_back(to_plan(found, proven));
            answer.plans.back().untied = untied;
        }
        shown_.push_back(kind_of(found.selection));
        if (ties_with_first(found, answer)) ++answer.ties;
    }

    // What one kind shown makes when items of bins that are set to an aim are left away.
    [[nodiscard]] bool less_of_a_kind(const PlanKind& kind) const {
        return std::any_of(shown_.begin(), shown_.end(), [&](const PlanKind& more) {
            return kind.activities == more.activities && includes(more, kind) &&
                   std::all_of(more.bins.begin(), more.bins.end(), [&](std::size_t q) {
                       return problem_.bins[q].set_to_aim ||
                              std::find(kind.bins.begin(), kind.bins.end(), q) != kind.bins.end();
                   });
        });
    }

    // Among plans that cost the same: aims first, then items, then bins, then order. The cost's
    // weight only keeps the search near them; `most_cost` is what holds it. False when the search
    // was cut short.
    bool break_ties(const SearchOptions& first, SearchResult& caught, SolveResult& answer) {
        // The search ends with what costs no more than its bound, and of several bins one may do.
        const bool several = caught.proven && kind_of(caught.best->selection).bins.size() > 1;
        if (!aims_ && !caught.tied && !several) return true;
        SearchOptions hunt;
        hunt.goal = tie_goal(problem_);
        hunt.excluded = first.excluded;
        hunt.most_cost = caught.best->cost + kSameCost;
        hunt.tolerance = 2e-11;
        hunt.most_nodes = std::max(kFewestTieNodes, 2 * caught.nodes);
        hunt.known = solve_amounts(model_, hunt.goal, caught.best->selection, hunt.most_cost);
        SearchResult nearest = search(model_, hunt, clock_);
        answer.nodes += nearest.nodes;
        if (nearest.best) caught.best = std::move(nearest.best);
        return nearest.proven;
    }

    [[nodiscard]] Solution to_plan(const PricedSelection& found, bool proven) const {
        Solution plan;
        plan.cost = found.cost;
        plan.selection = found.selection;
        plan.amounts = found.amounts;
        plan.rows = outcomes(problem_, found.selection, found.amounts);
        plan.aim_distance = found.aim_distance;
        plan.items = found.items;
        plan.proven = proven;
        return plan;
    }

    static constexpr double kSameCost = 1e-9;
    static constexpr double kSameDistance = 1e-7;

    const Problem& problem_;
    Deadline& clock_;
    SearchModel model_;
    bool aims_;
    std::vector<PlanKind> shown_;  // and counted
};

}  // namespace

SolveResult solve(const Problem& problem, std::size_t top, const SearchControl& watch) {
    refuse_faults(problem);
    if (top == 0) throw std::invalid_argument("at least one plan must be asked for");
    Deadline clock(watch);
    return Solver(problem, clock).run(top, true);
}

SolveResult solve_only(const Problem& problem, std::size_t top, Deadline& clock) {
    refuse_faults(problem);
    return Solver(problem, clock).run(top, false);
}

Conflict conflict_of(const Problem& problem, Deadline& clock) {
    return explain(problem, clock);
}

std::vector<RowOutcome> outcomes(const Problem& problem, const Selection& selection,
                                 const std::vector<double>& amounts) {
    const SearchModel model(problem);
    std::vector<RowOutcome> outcomes;
    for (std::size_t r = 0; r < problem.rows.size(); ++r) {
        RowOutcome& outcome = outcomes.emplace_back();
        const Allowed allowed = model.allowed(r, selection);
        outcome.middle = middle_of(problem, r, selection, amounts);
        outcome.margin = model.margin(model.units_of(r, selection));
        outcome.above_lower = outcome.middle - allowed.lower;
        outcome.below_upper = allowed.upper - outcome.middle;
    }
    return outcomes;
}

}  // namespace trialfit::numerics
