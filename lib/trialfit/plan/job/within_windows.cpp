// SPDX-License-Identifier: MIT
#include <trialfit/plan/job/within_windows.hpp>

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <trialfit/stack/change/carry_out.hpp>
#include <trialfit/stack/radial/radial.hpp>
#include <trialfit/stack/states.hpp>
#include <utility>
#include <variant>

namespace trialfit::plan {

namespace {

// A finish size of the plan's changes, and the readings that it may come out at.
struct Reading {
    job::Given* given = nullptr;
    stack::Range window;
    double within = 0.0;

    // `share` 0 and 1: the ends of the window. A face inboard of where it is measured from has a
    // negative size.
    void set(double share) const {
        const double read = window.lo + share * (window.hi - window.lo);
        given->size =
            quantity::toleranced(std::copysign(read, given->size.nominal), -within, within);
    }
};

// Amounts that come off what nobody has measured are no readings of a size.
std::vector<Reading> readings_of(const PlanMade& plan, stack::Changes& changes) {
    std::vector<Reading> all;
    for (std::size_t i = 0; i < plan.cuts.size(); ++i)
        if (const CutMade& cut = plan.cuts[i]; !cut.by_amount && !cut.no_window)
            all.push_back({&changes.cuts[i].size, cut.window, cut.read_within});
    for (std::size_t i = 0; i < plan.skims.size(); ++i)
        if (const SkimMade& skim = plan.skims[i]; !skim.no_window)
            all.push_back({&changes.skims[i].size, skim.window, skim.read_within});
    return all;
}

void add_failing(const stack::Model& model, const JobOptions& options,
                 const stack::Changes& changes, std::vector<stack::RadialGap>& into) {
    const job::Job after = stack::carried_out(model, changes);  // the model refers to it
    const auto built = stack::model_after(model, after);
    const auto* assembled = std::get_if<stack::Model>(&built);
    if (assembled == nullptr) return;
    for (stack::RadialGap& gap : stack::radial_gaps(stack::in_states(*assembled),
                                                    options.stack.judge, options.stack.inflate)) {
        const bool known = std::any_of(into.begin(), into.end(), [&](const stack::RadialGap& each) {
            return stack::id_of(each) == stack::id_of(gap);
        });
        if (gap.verdict == stack::Verdict::fails || gap.verdict == stack::Verdict::doubtful)
            if (!known) into.push_back(std::move(gap));
    }
}

}  // namespace

std::vector<stack::RadialGap> rubbing_within_windows(const stack::Model& model,
                                                     const JobOptions& options,
                                                     const PlanMade& plan,
                                                     numerics::Deadline& clock) {
    constexpr std::size_t kMostInMiddle = 4;
    constexpr std::size_t kMostAtEnds = 6;
    std::vector<stack::RadialGap> rubbing;
    stack::Changes changes = plan.changes;
    const std::vector<Reading> readings = readings_of(plan, changes);
    if (readings.empty() || readings.size() > kMostAtEnds) return rubbing;
    const std::size_t places = readings.size() > kMostInMiddle ? 2 : 3;
    std::vector<std::size_t> at(readings.size(), 0);
    for (bool more = true; more && !clock.stopped();) {
        for (std::size_t i = 0; i < readings.size(); ++i)
            readings[i].set(static_cast<double>(at[i]) / static_cast<double>(places - 1));
        add_failing(model, options, changes, rubbing);
        more = false;
        for (std::size_t i = 0; i < readings.size() && !more; ++i) {
            at[i] = at[i] + 1 < places ? at[i] + 1 : 0;
            more = at[i] != 0;
        }
    }
    return rubbing;
}

}  // namespace trialfit::plan
