// SPDX-License-Identifier: MIT
#include <algorithm>
#include <trialfit/plan/search/model.hpp>
#include <trialfit/plan/search/tolerances.hpp>
#include <trialfit/plan/settle/least_bother.hpp>
#include <trialfit/plan/settle/settle.hpp>
#include <utility>

namespace trialfit::plan {

namespace {

class Leaving {
public:
    Leaving(const JobProblem& problem, Plan plan)
        : problem_(problem), model_(problem.problem()), plan_(std::move(plan)) {}

    Plan run() {
        for (std::size_t q = 0; q < problem_.problem().seats.size(); ++q)
            if (problem_.problem().seats[q].grid == 0.0 && untouched_by_stock(q)) leave(q);
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
        Selection selection = plan_.selection;
        selection.stacks[q] = fitted(q);
        const auto found =
            settle(model_, tie_goal(problem_.problem()), selection, plan_.cost + kSameLength);
        if (!found || found->cost > plan_.cost + kSameLength ||
            found->aim_distance > plan_.aim_distance + kSameLength)
            return;
        const Verdict& verdict = problem_.problem().verdict;
        if (verdict && !verdict(found->selection, found->depths)) return;
        plan_.cost = found->cost;
        plan_.selection = found->selection;
        plan_.depths = found->depths;
        plan_.aim_distance = found->aim_distance;
        plan_.shims = found->shims;
        plan_.rows = outcomes(problem_.problem(), plan_.selection, plan_.depths);
    }

    const JobProblem& problem_;
    Model model_;
    Plan plan_;
};

}  // namespace

Plan least_bother(const JobProblem& problem, const Plan& plan) {
    return Leaving(problem, plan).run();
}

}  // namespace trialfit::plan
