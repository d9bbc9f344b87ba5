// SPDX-License-Identifier: MIT
#include <algorithm>
#include <cmath>
#include <cstddef>
#include <trialfit/plan/job/as_it_is.hpp>
#include <trialfit/stack/bounds.hpp>
#include <trialfit/stack/change/carry_out.hpp>
#include <trialfit/stack/check/check.hpp>
#include <variant>

namespace trialfit::plan {

namespace {

// The distance between a face that is cut and the one it is measured from, > 0.
stack::Range distance_now(const stack::Model& before, const stack::CutTo& cut, double inflate) {
    const auto at = [&](job::FaceId face) {
        return stack::Station{.face = job::FaceRef{cut.part, face}};
    };
    const stack::Range worst =
        stack::bounds(before, before.gap(at(cut.measure), at(cut.face)), inflate).worst;
    if (cut.size.size.nominal >= 0.0) return worst;
    return {.lo = -worst.hi, .hi = -worst.lo};
}

// What a size that is to come to `finish` within `holds` is where it may be `now` and stays so.
// `sign`: of the size as the job writes it.
quantity::Size left_as_it_is(double finish, double holds, double now, double sign) {
    const double one = sign * finish;
    const double beyond = sign * now - one;
    return quantity::toleranced(one, std::min(-holds, beyond), std::max(holds, beyond));
}

// Of each cut that may find nothing to take off; puts that into `changes`, whose cuts are the
// plan's, one for one.
bool tell_cuts(const stack::Model& before, double inflate, PlanMade& plan,
               stack::Changes& changes) {
    bool any = false;
    for (std::size_t i = 0; i < plan.cuts.size(); ++i) {
        CutMade& cut = plan.cuts[i];
        if (cut.by_amount) continue;
        stack::CutTo& to = changes.cuts[i];
        const stack::Range now = distance_now(before, to, inflate);
        if (now.lo >= cut.finish - cut.holds - stack::kRounding) continue;
        cut.may_be = now.lo;
        to.size.size =
            left_as_it_is(cut.finish, cut.holds, now.lo, to.size.size.nominal >= 0.0 ? 1.0 : -1.0);
        any = true;
    }
    return any;
}

bool tell_skims(const job::Job& job, PlanMade& plan, stack::Changes& changes) {
    bool any = false;
    for (std::size_t i = 0; i < plan.skims.size(); ++i) {
        SkimMade& skim = plan.skims[i];
        auto& to = changes.skims[i];
        const job::Ring& ring = job.parts[static_cast<std::size_t>(to.ring.part)]
                                    .rings[static_cast<std::size_t>(to.ring.index)];
        const quantity::Size& size = (skim.bore ? ring.bore : ring.outside).size;
        const double past = skim.bore ? size.upper - (skim.finish + skim.holds)
                                      : skim.finish - skim.holds - size.lower;
        if (past <= stack::kRounding) continue;
        skim.may_be = skim.bore ? size.upper : size.lower;
        to.size.size = left_as_it_is(skim.finish, skim.holds, *skim.may_be, 1.0);
        any = true;
    }
    return any;
}

bool holds_as_it_is(const stack::Model& before, const JobOptions& options,
                    const stack::Changes& changes) {
    const job::Job after = stack::carried_out(before, changes);
    const auto built = stack::model_after(before, after);
    const auto* const assembled = std::get_if<stack::Model>(&built);
    return assembled != nullptr && assembled->ties().contradictions().empty() &&
           fits(stack::check(*assembled, options.stack));
}

}  // namespace

bool fits(const stack::CheckAnswer& answer) {
    if (answer.verdict == stack::Verdict::holds) return true;
    const auto holds = [](const auto& each) { return each.verdict <= stack::Verdict::not_judged; };
    const auto all = [&](const auto& list) { return std::all_of(list.begin(), list.end(), holds); };
    return all(answer.checks) && all(answer.clearances) && all(answer.radial);
}

void tell_as_it_is(const stack::Model& before, const JobOptions& options, PlanMade& plan) {
    stack::Changes changes = plan.changes;
    const bool cuts = tell_cuts(before, options.stack.inflate, plan, changes);
    const bool skims = tell_skims(before.job(), plan, changes);
    if (!cuts && !skims) return;
    plan.needs_metal = options.judge_after != nullptr || !holds_as_it_is(before, options, changes);
}

}  // namespace trialfit::plan
