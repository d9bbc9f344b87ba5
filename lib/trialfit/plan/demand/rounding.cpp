// SPDX-License-Identifier: MIT
#include <algorithm>
#include <cmath>
#include <cstddef>
#include <string>
#include <trialfit/plan/demand/more_demands.hpp>
#include <trialfit/plan/job/shims.hpp>
#include <utility>
#include <vector>

namespace trialfit::plan {

void ask_rounding(const job::Job& job, Demands& into) {
    const std::size_t asked = into.all.size();
    for (std::size_t q = 0; q < into.seats.size(); ++q) {
        const ShimSeat& seat = into.seats[q];
        if (!seat.shims->round) continue;
        const std::string& part = job.parts[static_cast<std::size_t>(seat.part)].name;
        const auto end = into.all.begin() + static_cast<std::ptrdiff_t>(asked);
        const auto aimed = std::find_if(into.all.begin(), end, [q](const PlanDemand& demand) {
            return demand.aim && demand.by_stack[q] != 0.0;
        });
        if (aimed == end) {
            into.notes.emplace_back(NotRounded{.part = part});
            continue;
        }
        PlanDemand rule = *aimed;
        const RoundedFrom from = rounded_from(*seat.shims->round);
        // The gap's middle is its aim less the seat's share of what rounding took off the stack.
        const double ends[] = {*rule.aim - rule.by_stack[q] * from.least,
                               *rule.aim - rule.by_stack[q] * from.most};
        rule.name = part;
        rule.difference.clear();
        rule.rounded_seat = q;
        rule.lower = std::min(ends[0], ends[1]);
        rule.upper = std::max(ends[0], ends[1]);
        rule.more_than = false;
        rule.together = false;
        rule.aim.reset();
        into.all.push_back(std::move(rule));
    }
}

void tell_aims(const job::Job& job, Demands& into) {
    for (std::size_t q = 0; q < into.seats.size(); ++q) {
        std::vector<std::string> names;
        for (const PlanDemand& demand : into.all) {
            if (!demand.aim || demand.by_stack[q] == 0.0) continue;
            if (std::find(names.begin(), names.end(), demand.name) == names.end())
                names.push_back(demand.name);
        }
        if (names.size() < 2) continue;
        into.notes.emplace_back(
            SeveralAims{.part = job.parts[static_cast<std::size_t>(into.seats[q].part)].name,
                        .checks = std::move(names)});
    }
}

}  // namespace trialfit::plan
