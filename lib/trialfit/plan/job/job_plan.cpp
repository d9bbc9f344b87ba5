// SPDX-License-Identifier: MIT
#include <algorithm>
#include <cmath>
#include <memory>
#include <trialfit/numerics/planner/tolerances.hpp>
#include <trialfit/plan/job/explained.hpp>
#include <trialfit/plan/job/fouled.hpp>
#include <trialfit/plan/job/job_plan.hpp>
#include <trialfit/plan/job/least_bother.hpp>
#include <trialfit/plan/job/plan_maker.hpp>
#include <trialfit/plan/job/ways.hpp>
#include <trialfit/plan/job/within_windows.hpp>
#include <trialfit/stack/radial/radial.hpp>
#include <trialfit/stack/states.hpp>
#include <utility>

namespace trialfit::plan {

namespace {

// One search, and its plans with their work done.
struct Attempt {
    std::shared_ptr<const JobProblem> problem;
    EveryWay found;
    std::vector<numerics::Solution> kept;  // those of `plans`
    std::vector<PlanMade> plans;
    std::vector<double> costs_refused;  // of plans that do not hold once their work is done
    std::vector<stack::RadialGap> too_narrow;
    std::vector<stack::RadialGap> rubbing;  // within the windows alone
    std::vector<stack::Clearance> fouled;

    [[nodiscard]] bool all_hold() const { return costs_refused.empty(); }
    [[nodiscard]] bool cheapest_holds() const {
        return !plans.empty() && (all_hold() || plans.front().cost_ranked <=
                                                    costs_refused.front() + numerics::kSameLength);
    }
};

class Planner {
public:
    Planner(const stack::Model& model, const JobOptions& options, numerics::Deadline& clock)
        : model_(model), options_(options), clock_(clock) {
        if (!stack::asks_radial(model.job())) return;
        for (stack::RadialGap& gap : stack::radial_gaps(stack::in_states(model),
                                                        options.stack.judge, options.stack.inflate))
            nested_.push_back({.gap = std::move(gap)});
    }

    // What a plan brings into each other that lay apart before is minded from then on.
    Attempt run() {
        Attempt attempt = search();
        if (attempt.plans.empty() && attempt.found.answer.proven && !clock_.stopped())
            say_why(attempt);
        return attempt;
    }

private:
    // What windows may take once the time is over, and a plan is still to be told.
    static constexpr double kSecondsForWindows = 0.3;
    static constexpr double kAlone = 1.0;
    static constexpr double kLeastShare = 0.01;
    static constexpr double kGreatestShare = 100.0;

    Attempt search() {
        Attempt attempt = by_odds() ? try_with(kAlone, true) : try_with(kAlone, false);
        constexpr int kMostRounds = 12;
        for (int round = 0; round < kMostRounds && mind(attempt) && !clock_.stopped(); ++round)
            attempt = by_odds() ? try_with(kAlone, true) : try_with(kAlone, false);
        if (clock_.stopped()) return cut_short(std::move(attempt));
        if (by_odds() && !attempt.all_hold()) return sharing(std::move(attempt));
        if (attempt.problem->over_asks() || !attempt.all_hold()) bound(attempt);
        return attempt;
    }

    // Where a limit gives, more is moved than before: the reason is looked for among all demands.
    void say_why(Attempt& attempt) const {
        Judging judging = attempt.problem->judging();
        judging.limits_may_give = true;
        auto whole = std::make_shared<const JobProblem>(
            model_, demands(model_, nested_, fouled_, clock_), judging, &clock_);
        EveryWay found = solve_every_way(*whole, 1, clock_);
        if (!found.answer.conflict) return;
        attempt.problem = std::move(whole);
        attempt.found.which = std::move(found.which);
        attempt.found.answer.conflict = std::move(found.answer.conflict);
    }

    [[nodiscard]] bool by_odds() const { return static_cast<bool>(options_.by_odds); }

    // `loose`: less is asked than must hold, so that no plan is cheaper.
    [[nodiscard]] Attempt try_with(double share, bool loose) const {
        Attempt attempt;
        attempt.problem = problem_of(share, loose);
        if (clock_.stopped()) return attempt;
        attempt.found = solve_every_way(*attempt.problem, options_.top, clock_);
        for (const numerics::Solution& each : attempt.found.answer.plans)
            make(each, attempt);
        return attempt;
    }

    // Shims left where they lie may make of a plan the kind of one that is told already.
    static bool again_of_a_kind(const numerics::Solution& plan, Attempt& attempt) {
        const numerics::PlanKind kind = numerics::kind_of(plan.selection);
        const auto told = std::find_if(attempt.kept.begin(), attempt.kept.end(),
                                       [&](const numerics::Solution& each) {
                                           return numerics::kind_of(each.selection) == kind;
                                       });
        if (told == attempt.kept.end()) return false;
        numerics::SolveResult& answer = attempt.found.answer;
        if (answer.ties > 1 && plan.cost <= attempt.kept.front().cost + numerics::kSameLength)
            --answer.ties;
        return true;
    }

    void make(const numerics::Solution& found, Attempt& attempt) const {
        numerics::Solution plan = least_bother(*attempt.problem, found);
        if (again_of_a_kind(plan, attempt)) return;
        numerics::Deadline rest = clock_.at_least(kSecondsForWindows);
        MadePlan done = made(model_, options_, *attempt.problem, plan, rest);
        if (done.holds) {
            if (stack::asks_radial(model_.job())) {
                std::vector<stack::RadialGap> rubbing =
                    rubbing_within_windows(model_, options_, done.plan, rest);
                std::move(rubbing.begin(), rubbing.end(), std::back_inserter(attempt.rubbing));
            }
            attempt.kept.push_back(std::move(plan));
            attempt.plans.push_back(std::move(done.plan));
            return;
        }
        attempt.costs_refused.push_back(plan.cost);
        std::move(done.too_narrow.begin(), done.too_narrow.end(),
                  std::back_inserter(attempt.too_narrow));
        std::move(done.fouled.begin(), done.fouled.end(), std::back_inserter(attempt.fouled));
    }

    // What may be called proven of what was found when the search was stopped: a plan, where no
    // demand asks too much.
    [[nodiscard]] Attempt cut_short(Attempt attempt) const {
        numerics::SolveResult& answer = attempt.found.answer;
        answer.proven =
            answer.proven && !attempt.problem->over_asks() && attempt.all_hold() && !by_odds();
        if (answer.proven) return attempt;
        if (attempt.problem->over_asks() || by_odds() || !attempt.all_hold())
            for (PlanMade& plan : attempt.plans)
                plan.proven = false;
        return attempt;
    }

    // Whether what does not hold in a plan changes what is asked from then on.
    bool mind(const Attempt& attempt) {
        const bool nested = mind(attempt.too_narrow);
        const bool within = mind_windows(attempt.rubbing);
        return mind(attempt.fouled) || nested || within;
    }

    // What is asked for already is asked for of the windows, too.
    bool mind_windows(const std::vector<stack::RadialGap>& gaps) {
        const std::size_t before = nested_.size();
        for (const stack::RadialGap& gap : gaps)
            if (std::none_of(nested_.begin(), nested_.end(), [&](const Nesting& each) {
                    return stack::id_of(each.gap) == stack::id_of(gap);
                }))
                nested_.push_back({.gap = gap});
        return nested_.size() > before;
    }

    bool mind(const std::vector<stack::Clearance>& pairs) {
        bool changed = false;
        for (const stack::Clearance& pair : pairs) {
            if (std::any_of(fouled_.begin(), fouled_.end(), [&](const stack::Clearance& each) {
                    return stack::id_of(each) == stack::id_of(pair);
                }))
                continue;
            const auto as_it_is = as_asked(model_.job(), pair);
            if (!as_it_is) continue;
            fouled_.push_back(*as_it_is);
            changed = true;
        }
        return changed;
    }

    // The same for radial gaps. One that a plan meant to part, and did not surely part
    // (rings are apart in the worst case or not at all), is asked to be wide from then on.
    bool mind(const std::vector<stack::RadialGap>& gaps) {
        bool changed = false;
        for (const stack::RadialGap& gap : gaps) {
            const auto known = std::find_if(
                nested_.begin(), nested_.end(),
                [&](const Nesting& each) { return stack::id_of(each.gap) == stack::id_of(gap); });
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
        for (int i = 0; i < kHalvings && !clock_.stopped(); ++i) {
            const double share = std::sqrt(low * high);
            Attempt next = try_with(share, false);
            // With no plan at all the share is too small, with one that does not hold too large.
            (next.cheapest_holds() || next.found.answer.plans.empty() ? low : high) = share;
            if (next.cheapest_holds() &&
                (best.plans.empty() || next.plans.front().cost_ranked <=
                                           best.plans.front().cost_ranked + numerics::kSameLength))
                best = std::move(next);
        }
        numerics::SolveResult& answer = best.found.answer;
        answer.bound = bound;
        const bool reached = best.cheapest_holds() && bound_proven &&
                             best.plans.front().cost_ranked <= bound + numerics::kSameLength;
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
        EveryWay least = solve_every_way(*sure, 1, clock_);
        if (attempt.plans.empty() && least.answer.plans.empty() && least.answer.proven) {
            attempt.problem = std::move(sure);
            attempt.found = std::move(least);
            attempt.costs_refused.clear();
            return;
        }
        numerics::SolveResult& answer = attempt.found.answer;
        answer.bound = std::min(answer.bound, least.answer.bound);
        for (PlanMade& plan : attempt.plans)
            plan.proven = plan.proven && plan.cost_ranked <= answer.bound + numerics::kSameLength;
        answer.proven =
            !attempt.plans.empty() && std::all_of(attempt.plans.begin(), attempt.plans.end(),
                                                  [](const PlanMade& plan) { return plan.proven; });
    }

    [[nodiscard]] std::shared_ptr<const JobProblem> problem_of(double share, bool loose,
                                                               bool surely = false) const {
        return std::make_shared<const JobProblem>(
            model_, demands(model_, nested_, fouled_, clock_),
            Judging{.judge = options_.stack.judge,
                    .inflate = options_.stack.inflate,
                    .by_odds = options_.by_odds,
                    .odds_level = options_.odds_level.value_or(0.5),
                    .share = share,
                    .loose = loose,
                    .surely = surely},
            &clock_);
    }

    const stack::Model& model_;
    const JobOptions& options_;
    numerics::Deadline& clock_;
    std::vector<Nesting> nested_;
    std::vector<stack::Clearance> fouled_;
};

PlanAnswer blank_answer(const stack::Model& model, const JobOptions& options) {
    PlanAnswer answer;
    answer.file = model.job().file;
    answer.title = model.job().title;
    answer.units = model.job().units;
    answer.judge = options.stack.judge;
    answer.inflate = options.stack.inflate;
    answer.odds_level = options.odds_level;
    answer.before =
        options.before != nullptr ? *options.before : stack::check(model, options.stack);
    if (options.judge_after) options.judge_after(answer.before, model.job());
    answer.warnings = answer.before.warnings;
    answer.not_assessed = answer.before.not_assessed;
    return answer;
}

}  // namespace

PlanAnswer plan(const stack::Model& model, const JobOptions& options) {
    PlanAnswer answer = blank_answer(model, options);
    numerics::Deadline clock(options.watch);
    Attempt attempt = Planner(model, options, clock).run();
    const JobProblem& problem = *attempt.problem;
    const numerics::SolveResult& found = attempt.found.answer;
    answer.notes = problem.demands().notes;
    answer.nothing_to_change = problem.demands().works.empty() && problem.demands().seats.empty();
    answer.proven = found.proven;
    answer.bound = found.bound;
    answer.stopped = clock.was_stopped();
    answer.ties = found.ties;
    answer.more_ties = found.more_ties;
    answer.plans = std::move(attempt.plans);
    for (Note& note : attempt.kept.empty() ? centring_might_do(problem)
                                           : centring_first(problem, attempt.kept.front()))
        answer.notes.push_back(std::move(note));
    for (const double cost : attempt.costs_refused) {
        answer.proven = false;
        answer.notes.emplace_back(PlanRefused{.cost = cost});
    }
    if (problem.leans() && !(answer.plans.empty() ? answer.proven : answer.plans.front().proven))
        answer.notes.emplace_back(LeansAsItStands{});
    // What a plan leaves standing is told of the job with its work done.
    if (!answer.plans.empty()) answer.warnings = answer.plans.front().after.warnings;
    if (answer.plans.empty()) answer.conflict = opposed(problem, answer.before);
    if (answer.conflict) {
        answer.proven = true;
        return answer;
    }
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
