// SPDX-License-Identifier: MIT
#include <algorithm>
#include <cmath>
#include <trialfit/numerics/planner/tolerances.hpp>
#include <trialfit/plan/demand/rows.hpp>
#include <trialfit/plan/job/explained.hpp>
#include <utility>

namespace trialfit::plan {

namespace {

numerics::Selection as_it_is(const JobProblem& problem) {
    numerics::Selection selection;
    selection.done.assign(problem.problem().activities.size(), false);
    selection.stacks.resize(problem.problem().bins.size());
    for (std::size_t kind = 0; kind < problem.stock().size(); ++kind)
        if (problem.stock()[kind].fitted)
            selection.stacks[problem.stock()[kind].seat].push_back(kind);
    return selection;
}

class Explaining {
public:
    Explaining(const JobProblem& problem, const std::vector<std::size_t>& which,
               const stack::CheckAnswer& before)
        : problem_(problem), which_(which), limits_(problem.limits_of(which)), before_(before) {}

    [[nodiscard]] NoPlan run(const numerics::Conflict& conflict) const {
        NoPlan why;
        why.irreducible = conflict.irreducible;
        why.sought = conflict.sought;
        for (const numerics::ConflictLimit& limit : conflict.members)
            add(stands_of(limit), why.members);
        if (conflict.relaxed) {
            why.relaxed = stands_of(*conflict.relaxed);
            why.relaxed_by = conflict.relaxed_by;
        }
        for (std::size_t row = 0; row < problem_.problem().rows.size(); ++row) {
            const PlanDemand& demand = problem_.demand(row);
            if (immovable(demand) && !problem_.holds_now(demand))
                add(demanded(demand, missed_below(demand)), why.immovable);
        }
        return why;
    }

    [[nodiscard]] std::optional<NoPlan> opposed() const {
        const std::vector<PlanDemand>& all = problem_.demands().all;
        for (const PlanDemand& clears : all) {
            if (asked_by_the_job(clears) || middle_alone(clears)) continue;
            for (const PlanDemand& asks : all) {
                if (of<stack::CheckId>(asks) == nullptr || asks.upper > clears.lower ||
                    !same_gap(clears, asks))
                    continue;
                if (asks.upper == clears.lower && !clears.more_than) continue;
                NoPlan why{.irreducible = true, .opposed = true};
                why.members = {demanded(clears, true), demanded(asks, false)};
                return why;
            }
        }
        return std::nullopt;
    }

    [[nodiscard]] NoPlan stuck() const {
        NoPlan why;
        for (const PlanDemand& demand : problem_.demands().all) {
            const std::optional<double> odds = odds_of(demand);
            if (demand.drawn && !demand.leans && immovable(demand) && odds &&
                *odds < *before_.odds_level)
                add(demanded(demand, missed_below(demand)), why.immovable);
        }
        return why;
    }

private:
    template <typename Id>
    static const Id* of(const PlanDemand& demand) {
        return demand.of ? std::get_if<Id>(&*demand.of) : nullptr;
    }

    static bool asked_by_the_job(const PlanDemand& demand) {
        return of<stack::CheckId>(demand) != nullptr || of<stack::AirGapId>(demand) != nullptr;
    }

    static bool same_gap(const PlanDemand& a, const PlanDemand& b) {
        return a.state == b.state && a.by_work == b.by_work && a.by_stack == b.by_stack &&
               std::abs(a.now.constant - b.now.constant) < numerics::kSameLength &&
               (a.now.sensitivities - b.now.sensitivities).norm() < numerics::kSameLength;
    }

    // Several demands may ask the same in the same words: the one furthest off is told.
    static void add(Stands stands, std::vector<Stands>& all) {
        for (Stands& each : all) {
            if (each.kind != stands.kind || each.name != stands.name ||
                each.difference != stands.difference || each.state != stands.state ||
                each.limit != stands.limit)
                continue;
            const bool least =
                stands.kind == Stands::Kind::clearance || stands.kind == Stands::Kind::least;
            if (each.best && stands.best)
                each.best =
                    least ? std::min(*each.best, *stands.best) : std::max(*each.best, *stands.best);
            return;
        }
        all.push_back(std::move(stands));
    }

    [[nodiscard]] stack::Range now(const PlanDemand& demand) const {
        const std::vector<double> depths(problem_.problem().activities.size(), 0.0);
        return problem_.judged(demand, as_it_is(problem_), depths);
    }

    [[nodiscard]] bool missed_below(const PlanDemand& demand) const {
        const stack::Range range = now(demand);
        return demand.lower - range.lo > range.hi - demand.upper;
    }

    // The chance that a whole check holds stands for each of its differences.
    [[nodiscard]] std::optional<double> odds_of(const PlanDemand& demand) const {
        if (!demand.of) return std::nullopt;
        for (const stack::CheckResult& check : before_.checks)
            if (check.id == *demand.of) return check.odds;
        for (const stack::Clearance& pair : before_.clearances)
            if (stack::id_of(pair) == *demand.of) return pair.odds;
        for (const stack::RadialGap& gap : before_.radial)
            if (stack::id_of(gap) == *demand.of) return gap.odds;
        return std::nullopt;
    }

    [[nodiscard]] const std::optional<job::Limit>* limit_of(const PlanDemand& demand,
                                                            bool least) const {
        const job::Job& job = problem_.model().job();
        if (const auto* const id = of<stack::CheckId>(demand)) {
            const job::Check& check = job.checks[id->index];
            return least ? &check.at_least : &check.at_most;
        }
        const auto* const id = of<stack::AirGapId>(demand);
        if (id == nullptr) return nullptr;
        const job::AirGap& gap = job.air_gaps[id->index];
        return least ? &gap.at_least : &gap.at_most;
    }

    [[nodiscard]] Stands demanded(const PlanDemand& demand, bool least) const {
        Stands stands;
        stands.name = demand.name;
        stands.difference = demand.difference;
        stands.state = demand.state;
        if (demand.rounded_seat) {
            stands.kind = Stands::Kind::rounding;
            const ShimSeat& seat = problem_.demands().seats[*demand.rounded_seat];
            stands.limit = seat.shims->round->step;
            return stands;
        }
        stands.limit = least ? demand.lower : demand.upper;
        const std::optional<job::Limit>* const limit = limit_of(demand, least);
        stands.kind = limit == nullptr ? Stands::Kind::clearance
                                       : (least ? Stands::Kind::least : Stands::Kind::most);
        if (limit != nullptr && *limit) stands.written = (*limit)->written;
        const stack::Range range = now(demand);
        if (before_.odds_level) {
            stands.odds = odds_of(demand);
        } else {
            stands.best = least ? range.lo : range.hi;
        }
        return stands;
    }

    // Of the demands whose limit it is, the one furthest off as things stand.
    [[nodiscard]] const PlanDemand& furthest_off(const numerics::ConflictLimit& limit) const {
        const bool least = limit.kind == numerics::LimitKind::row_lower;
        const PlanDemand* furthest = &problem_.demand(limit.index, which_);
        const auto off = [&](const PlanDemand& demand) {
            const stack::Range range = now(demand);
            return least ? demand.lower - range.lo : range.hi - demand.upper;
        };
        for (std::size_t row = limit.index + 1; row < limits_.size(); ++row) {
            if (limits_[row] != limit.index) continue;
            const PlanDemand& other = problem_.demand(row, which_);
            if (off(other) > off(*furthest)) furthest = &other;
        }
        return *furthest;
    }

    [[nodiscard]] Stands stands_of(const numerics::ConflictLimit& limit) const {
        if (limit.kind == numerics::LimitKind::row_lower ||
            limit.kind == numerics::LimitKind::row_upper)
            return demanded(furthest_off(limit), limit.kind == numerics::LimitKind::row_lower);
        Stands stands;
        if (limit.kind == numerics::LimitKind::bin_stock) {
            stands.kind = Stands::Kind::shims;
            stands.name = problem_.problem().bins[limit.index].name;
            stands.limit = problem_.problem().bins[limit.index].at_most;
            return stands;
        }
        stands.name = problem_.problem().activities[limit.index].name;
        const Work& work = problem_.demands().works[limit.index];
        if (const auto* cut = std::get_if<FaceCut>(&work)) {
            stands.kind = Stands::Kind::keep;
            stands.limit = cut->cut->keep + cut->cut->holds;
        } else if (const auto* skim = std::get_if<RingSkim>(&work)) {
            stands.kind = Stands::Kind::skim;
            stands.limit = skim->now + skim->length.by_depth * skim->most;
        } else if (const auto* lap = std::get_if<ConeLap>(&work)) {
            stands.kind = Stands::Kind::lap;
            stands.limit = lap->lap->at_most_on_diameter;
        }
        return stands;
    }

    const JobProblem& problem_;
    const std::vector<std::size_t>& which_;
    const std::vector<std::size_t> limits_;
    const stack::CheckAnswer& before_;
};

}  // namespace

NoPlan explained(const JobProblem& problem, const std::vector<std::size_t>& which,
                 const numerics::Conflict& conflict, const stack::CheckAnswer& before) {
    return Explaining(problem, which, before).run(conflict);
}

std::optional<NoPlan> opposed(const JobProblem& problem, const stack::CheckAnswer& before) {
    return Explaining(problem, {}, before).opposed();
}

NoPlan stuck_by_odds(const JobProblem& problem, const stack::CheckAnswer& before) {
    if (!before.odds_level) return {};
    return Explaining(problem, {}, before).stuck();
}

}  // namespace trialfit::plan
