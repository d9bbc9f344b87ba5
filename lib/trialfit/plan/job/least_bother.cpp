// SPDX-License-Identifier: MIT
#include <algorithm>
#include <trialfit/numerics/planner/search_model.hpp>
#include <trialfit/numerics/planner/solve_amounts.hpp>
#include <trialfit/numerics/planner/tolerances.hpp>
#include <trialfit/plan/job/least_bother.hpp>
#include <utility>

namespace trialfit::plan {

namespace {

class Leaving {
public:
    Leaving(const JobProblem& problem, numerics::Solution plan)
        : problem_(problem), model_(problem.problem()), plan_(std::move(plan)) {}

    numerics::Solution run() {
        for (std::size_t q = 0; q < problem_.problem().bins.size(); ++q)
            if (problem_.problem().bins[q].grid == 0.0 && untouched_by_stock(q)) leave(q);
        return std::move(plan_);
    }

private:
    [[nodiscard]] std::vector<std::size_t> fitted(std::size_t q) const {
        std::vector<std::size_t> all;
        for (std::size_t kind = 0; kind < problem_.stock().size(); ++kind)
            if (problem_.stock()[kind].seat == q && problem_.stock()[kind].fitted)
                all.push_back(kind);
        return all;
    }

    [[nodiscard]] bool untouched_by_stock(std::size_t q) const {
        const auto& stack = plan_.selection.stacks[q];
        return stack.size() < fitted(q).size() &&
               std::all_of(stack.begin(), stack.end(), [&](std::size_t kind) {
                   return problem_.stock()[kind].fitted.has_value();
               });
    }

    void leave(std::size_t q) {
        numerics::Selection selection = plan_.selection;
        selection.stacks[q] = fitted(q);
        const auto found = numerics::solve_amounts(model_, tie_goal(problem_.problem()), selection,
                                                   plan_.cost + numerics::kSameLength);
        if (!found || found->cost > plan_.cost + numerics::kSameLength ||
            found->aim_distance > plan_.aim_distance + numerics::kSameLength)
            return;
        const numerics::Acceptance& verdict = problem_.problem().verdict;
        if (verdict && !verdict(found->selection, found->amounts)) return;
        plan_.cost = found->cost;
        plan_.selection = found->selection;
        plan_.amounts = found->amounts;
        plan_.aim_distance = found->aim_distance;
        plan_.items = found->items;
        plan_.rows = outcomes(problem_.problem(), plan_.selection, plan_.amounts);
    }

    const JobProblem& problem_;
    numerics::SearchModel model_;
    numerics::Solution plan_;
};

}  // namespace

numerics::Solution least_bother(const JobProblem& problem, const numerics::Solution& plan) {
    return Leaving(problem, plan).run();
}

}  // namespace trialfit::plan
