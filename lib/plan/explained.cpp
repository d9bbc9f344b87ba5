// SPDX-License-Identifier: MIT
#include <algorithm>
#include <trialfit/plan/explained.hpp>
#include <trialfit/plan/tolerances.hpp>
#include <utility>

namespace trialfit::plan {

namespace {

Selection as_it_is(const JobProblem& problem) {
    Selection selection;
    selection.cut.assign(problem.problem().cuts.size(), false);
    selection.stacks.resize(problem.problem().seats.size());
    for (std::size_t kind = 0; kind < problem.stock().size(); ++kind)
        if (problem.stock()[kind].fitted)
            selection.stacks[problem.stock()[kind].seat].push_back(kind);
    return selection;
}

Stands demanded(const JobProblem& problem, std::size_t row, bool least) {
    const Demand& demand = problem.demand(row);
    Stands stands;
    stands.name = demand.name;
    stands.difference = demand.difference;
    stands.state = demand.state;
    stands.limit = least ? demand.lower : demand.upper;
    stands.kind = demand.check < 0 ? Stands::Kind::clearance
                                   : (least ? Stands::Kind::least : Stands::Kind::most);
    if (demand.check >= 0) {
        const job::Check& check =
            problem.model().job().checks[static_cast<std::size_t>(demand.check)];
        const std::optional<job::Limit>& limit = least ? check.at_least : check.at_most;
        if (limit) stands.written = limit->written;
    }
    const std::vector<double> depths(problem.problem().cuts.size(), 0.0);
    const stack::Range now = problem.judged(demand, as_it_is(problem), depths);
    stands.best = least ? now.lo : now.hi;
    return stands;
}

bool immovable(const Demand& demand) {
    const auto none = [](double times) { return times == 0.0; };
    return std::all_of(demand.by_work.begin(), demand.by_work.end(), none) &&
           std::all_of(demand.by_stack.begin(), demand.by_stack.end(), none);
}

void add_immovable(const JobProblem& problem, NoPlan& why) {
    for (std::size_t row = 0; row < problem.problem().rows.size(); ++row) {
        const Demand& demand = problem.demand(row);
        if (!immovable(demand)) continue;
        const Stands least = demanded(problem, row, true);
        const Stands most = demanded(problem, row, false);
        if (*least.best < demand.lower - kSameLength) why.immovable.push_back(least);
        if (*most.best > demand.upper + kSameLength) why.immovable.push_back(most);
    }
}

Stands stands_of(const JobProblem& problem, const Limit& limit) {
    if (limit.kind == LimitKind::row_lower) return demanded(problem, limit.index, true);
    if (limit.kind == LimitKind::row_upper) return demanded(problem, limit.index, false);
    Stands stands;
    if (limit.kind == LimitKind::seat_stock) {
        stands.kind = Stands::Kind::shims;
        stands.name = problem.problem().seats[limit.index].name;
        stands.limit = problem.problem().seats[limit.index].at_most;
        return stands;
    }
    stands.name = problem.problem().cuts[limit.index].name;
    const Work& work = problem.demands().works[limit.index];
    if (const auto* cut = std::get_if<FaceCut>(&work)) {
        stands.kind = Stands::Kind::keep;
        stands.limit = cut->cut->keep + cut->cut->holds;
    } else {
        stands.kind = Stands::Kind::lap;
        stands.limit = std::get<ConeLap>(work).lap->at_most_on_diameter;
    }
    return stands;
}

}  // namespace

NoPlan explained(const JobProblem& problem, const Conflict& conflict) {
    NoPlan why;
    why.irreducible = conflict.irreducible;
    for (const Limit& limit : conflict.members)
        why.members.push_back(stands_of(problem, limit));
    if (conflict.relaxed) {
        why.relaxed = stands_of(problem, *conflict.relaxed);
        why.relaxed_by = conflict.relaxed_by;
    }
    add_immovable(problem, why);
    return why;
}

}  // namespace trialfit::plan
