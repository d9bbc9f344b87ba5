// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <memory>
#include <trialfit/job/warnings.hpp>
#include <trialfit/plan/explained.hpp>
#include <trialfit/plan/job_plan.hpp>
#include <trialfit/plan/least_bother.hpp>
#include <trialfit/plan/plan_maker.hpp>
#include <trialfit/plan/tolerances.hpp>
#include <trialfit/plan/ways.hpp>
#include <trialfit/stack/radial.hpp>
#include <trialfit/stack/states.hpp>
#include <utility>

namespace trialfit::plan {

namespace {

// One search, and its plans with their work done.
struct Attempt {
    std::shared_ptr<const JobProblem> problem;
    EveryWay found;
    std::vector<Plan> kept;  // those of `plans`
    std::vector<PlanMade> plans;
    std::vector<double> costs_refused;  // of plans that do not hold once their work is done
    std::vector<stack::RadialGap> too_narrow;

    [[nodiscard]] bool all_hold() const { return costs_refused.empty(); }
    [[nodiscard]] bool cheapest_holds() const {
        return !plans.empty() &&
               (all_hold() || plans.front().cost <= costs_refused.front() + kSameLength);
    }
};

class Planner {
public:
    Planner(const stack::Model& model, const JobOptions& options)
        : model_(model), options_(options) {
        if (!stack::asks_radial(model.job())) return;
        for (stack::RadialGap& gap : stack::radial_gaps(stack::in_states(model),
                                                        options.stack.judge, options.stack.inflate))
            nested_.push_back({.gap = std::move(gap)});
    }

    // What a plan brings into each other that lay apart before is minded from then on.
    Attempt run() {
        Attempt attempt = by_odds() ? try_with(kAlone, true) : try_with(kAlone, false);
        constexpr int kMostRounds = 12;
        for (int round = 0; round < kMostRounds && mind(attempt.too_narrow); ++round)
            attempt = by_odds() ? try_with(kAlone, true) : try_with(kAlone, false);
        if (by_odds() && !attempt.all_hold()) return sharing(std::move(attempt));
        if (attempt.problem->over_asks() || !attempt.all_hold()) bound(attempt);
        return attempt;
    }

private:
    static constexpr double kAlone = 1.0;
    static constexpr double kLeastShare = 0.01;
    static constexpr double kGreatestShare = 100.0;

    [[nodiscard]] bool by_odds() const { return static_cast<bool>(options_.by_odds); }

    // `loose`: less is asked than must hold, so that no plan is cheaper.
    [[nodiscard]] Attempt try_with(double share, bool loose) const {
        Attempt attempt;
        attempt.problem = problem_of(share, loose);
        attempt.found = solve_every_way(*attempt.problem, options_);
        for (const Plan& each : attempt.found.answer.plans)
            make(each, attempt);
        return attempt;
    }

    void make(const Plan& found, Attempt& attempt) const {
        Plan plan = least_bother(*attempt.problem, found);
        MadePlan done = made(model_, options_, *attempt.problem, plan);
        if (done.holds) {
            attempt.kept.push_back(std::move(plan));
            attempt.plans.push_back(std::move(done.plan));
            return;
        }
        attempt.costs_refused.push_back(plan.cost);
        std::move(done.too_narrow.begin(), done.too_narrow.end(),
                  std::back_inserter(attempt.too_narrow));
    }

    // Whether that changes what is minded. One that a plan meant to part, and did not surely part
    // (rings are apart in the worst case or not at all), is asked to be wide from then on.
    bool mind(const std::vector<stack::RadialGap>& gaps) {
        bool changed = false;
        for (const stack::RadialGap& gap : gaps) {
            const auto known =
                std::find_if(nested_.begin(), nested_.end(), [&](const Nesting& each) {
                    return each.gap.inner == gap.inner && each.gap.outer == gap.outer;
                });
            if (known == nested_.end()) {
                nested_.push_back({.gap = gap});
            } else if (known->wide) {
                continue;
            } else {
                known->wide = true;
            }
            changed = true;
        }
        return changed;
    }

    // By odds an engagement or an overlap hangs on several differences at once, each likely enough
    // alone; and what leans on directions is likelier than its worst directions make it. The less
    // of the chance to fail each is given, the likelier they are together, and the dearer the plan:
    // the largest share that does is looked for. No plan is cheaper than the loose search's, which
    // need not be reached.
    [[nodiscard]] Attempt sharing(Attempt loose) const {
        const double bound = loose.found.answer.bound;
        const bool bound_proven = loose.found.answer.proven;
        Attempt best = std::move(loose);
        double low = kLeastShare;
        double high = kGreatestShare;
        constexpr int kHalvings = 11;
        for (int i = 0; i < kHalvings; ++i) {
            const double share = std::sqrt(low * high);
            Attempt next = try_with(share, false);
            // With no plan at all the share is too small, with one that does not hold too large.
            (next.cheapest_holds() || next.found.answer.plans.empty() ? low : high) = share;
            if (next.cheapest_holds() &&
                (best.plans.empty() ||
                 next.plans.front().cost <= best.plans.front().cost + kSameLength))
                best = std::move(next);
        }
        Answer& answer = best.found.answer;
        answer.conflict.reset();
        answer.bound = bound;
        const bool reached =
            best.cheapest_holds() && bound_proven && best.plans.front().cost <= bound + kSameLength;
        for (PlanMade& plan : best.plans)
            plan.proven = reached && &plan == &best.plans.front();
        answer.proven = reached && best.plans.size() == 1 && options_.top == 1;
        if (best.plans.empty()) best.problem = problem_of(kAlone, false);
        return best;
    }

    // Where some demands may ask too much, and others too little: no plan is cheaper than one that
    // leaves the former out, and what is shown holds the latter too.
    void bound(Attempt& attempt) const {
        auto sure = problem_of(kAlone, by_odds(), true);
        JobOptions one = options_;
        one.top = 1;
        EveryWay least = solve_every_way(*sure, one);
        if (attempt.plans.empty() && least.answer.plans.empty() && least.answer.proven) {
            attempt.problem = std::move(sure);
            attempt.found = std::move(least);
            attempt.costs_refused.clear();
            return;
        }
        Answer& answer = attempt.found.answer;
        answer.bound = std::min(answer.bound, least.answer.bound);
        for (PlanMade& plan : attempt.plans)
            plan.proven = plan.proven && plan.cost <= answer.bound + kSameLength;
        answer.proven =
            !attempt.plans.empty() && std::all_of(attempt.plans.begin(), attempt.plans.end(),
                                                  [](const PlanMade& plan) { return plan.proven; });
        answer.conflict.reset();
    }

    [[nodiscard]] std::shared_ptr<const JobProblem> problem_of(double share, bool loose,
                                                               bool surely = false) const {
        return std::make_shared<const JobProblem>(
            model_, demands(model_, nested_),
            Judging{.judge = options_.stack.judge,
                    .inflate = options_.stack.inflate,
                    .by_odds = options_.by_odds,
                    .odds_level = options_.odds_level.value_or(0.5),
                    .share = share,
                    .loose = loose,
                    .surely = surely});
    }

    const stack::Model& model_;
    const JobOptions& options_;
    std::vector<Nesting> nested_;
};

PlanAnswer blank_answer(const stack::Model& model, const JobOptions& options) {
    PlanAnswer answer;
    answer.file = model.job().file;
    answer.title = model.job().title;
    answer.units = model.job().units;
    answer.judge = options.stack.judge;
    answer.inflate = options.stack.inflate;
    answer.odds_level = options.odds_level;
    answer.warnings = job::warnings(model.job());
    answer.before = stack::check(model, options.stack);
    if (options.judge_after) options.judge_after(answer.before, model.job());
    answer.not_assessed = answer.before.not_assessed;
    return answer;
}

// How tilted parts lean is reckoned where they stand now.
void tell_leaning(PlanAnswer& answer) {
    answer.notes.emplace_back(
        "How far a tilted part leans over at a gap was reckoned as things stand, and every plan "
        "was then checked as it will stand: a slightly cheaper one may have been passed over.");
}

}  // namespace

PlanAnswer plan(const stack::Model& model, const JobOptions& options) {
    PlanAnswer answer = blank_answer(model, options);
    Attempt attempt = Planner(model, options).run();
    const JobProblem& problem = *attempt.problem;
    const Answer& found = attempt.found.answer;
    answer.notes = problem.demands().notes;
    answer.nothing_to_change = problem.demands().works.empty() && problem.demands().seats.empty();
    answer.proven = found.proven;
    answer.bound = found.bound;
    answer.stopped = options.watch.stop != nullptr && options.watch.stop->load();
    answer.plans = std::move(attempt.plans);
    for (std::string& note : attempt.kept.empty() ? centring_might_do(problem)
                                                  : centring_first(problem, attempt.kept.front()))
        answer.notes.push_back(std::move(note));
    for (const double cost : attempt.costs_refused) {
        answer.proven = false;
        answer.notes.push_back(fmt::format(
            "a plan of cost {:.4g} is not shown: with its work done, not every check holds.",
            cost));
    }
    if (problem.leans() && !(answer.plans.empty() ? answer.proven : answer.plans.front().proven))
        tell_leaning(answer);
    if (answer.plans.empty() && !found.conflict && options.by_odds) {
        NoPlan stuck = stuck_by_odds(problem, answer.before);
        answer.proven = !stuck.immovable.empty();
        if (answer.proven) answer.conflict = std::move(stuck);
    }
    if (answer.plans.empty() && found.conflict)
        answer.conflict = explained(problem, attempt.found.which, *found.conflict, answer.before);
    return answer;
}

}  // namespace trialfit::plan
