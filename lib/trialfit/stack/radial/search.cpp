// SPDX-License-Identifier: MIT
#include <algorithm>
#include <array>
#include <cstddef>
#include <limits>
#include <map>
#include <queue>
#include <trialfit/stack/bounds.hpp>
#include <trialfit/stack/check/left_open.hpp>
#include <trialfit/stack/clearance/clearances.hpp>
#include <trialfit/stack/clearance/listed.hpp>
#include <trialfit/stack/model/index.hpp>
#include <trialfit/stack/radial/radial.hpp>
#include <trialfit/stack/states.hpp>
#include <utility>

// Finds the pairs of rings that lie within one another.
namespace trialfit::stack {

namespace {

struct NestedRing {
    job::RingRef ref;
    double bore = 0.0;
    double outside = 0.0;
    bool turns = false;
    Range reach;
};

std::vector<NestedRing> rings_of(const Model& model) {
    const std::vector<std::vector<Range>> faces = model.reach();
    std::vector<NestedRing> rings;
    for (const job::PartId p : job::indices(model.job().parts)) {
        const job::Part& part = model.job().parts[at(p)];
        for (const job::RingId r : job::indices(part.rings)) {
            const job::Ring& ring = part.rings[at(r)];
            if (!ring.measured()) continue;  // radial_not_assessed tells of it
            const double grown = model.growth(p);
            rings.push_back({.ref = {p, r},
                             .bore = ring.bore.size.nominal,
                             .outside = ring.outside.size.nominal,
                             .turns = part.turns,
                             .reach = {.lo = faces[at(p)][at(ring.inboard.face)].lo +
                                             grown * ring.inboard.beyond,
                                       .hi = faces[at(p)][at(ring.outboard.face)].hi +
                                             grown * ring.outboard.beyond}});
        }
    }
    std::ranges::stable_sort(
        rings, [](const NestedRing& a, const NestedRing& b) { return a.reach.lo < b.reach.lo; });
    return rings;
}

// No two axes of the job lie further apart than all eccentricities of all parts together.
double farthest_apart(const Model& model, const std::vector<NestedRing>& rings) {
    double length = 0.0;
    for (const NestedRing& ring : rings)
        length = std::max(length, ring.reach.hi - rings.front().reach.lo);
    double all = 0.0;
    for (const job::PartId p : job::indices(model.job().parts)) {
        const job::Part& part = model.job().parts[at(p)];
        if (part.centred)
            all += part.centred->clearance.size.upper + std::max(0.0, warm_register(model, p).adds);
        for (const job::Runout& out : part.runout)
            all += out.is.size.upper;
        if (part.face_runout)
            all += part.face_runout->is.size.upper / part.face_runout->dia * length;
    }
    return all;
}

// Sweeps along the axis; of the rings present, only those near in diameter are looked at.
// `anywhere`: all rings are present all along.
std::vector<NestedRings> nested_pairs(const Model& model, double within, bool anywhere) {
    const std::vector<NestedRing> rings = rings_of(model);
    const double window = anywhere || static_cast<int>(rings.size()) <= kAllPairsUpTo
                              ? std::numeric_limits<double>::infinity()
                              : 2.0 * (within + farthest_apart(model, rings));
    // Of the still and of the turning rings present: by bore and by outside diameter.
    using Present = std::multimap<double, int>;
    std::array<Present, 2> by_bore;
    std::array<Present, 2> by_outside;
    struct Leaves {
        double at;
        Present::iterator bore;
        Present::iterator outside;
        std::size_t side;
    };
    const auto later = [](const Leaves& a, const Leaves& b) { return a.at > b.at; };
    std::priority_queue<Leaves, std::vector<Leaves>, decltype(later)> leaving(later);
    std::vector<NestedRings> pairs;
    for (int i = 0; i < static_cast<int>(rings.size()); ++i) {
        const NestedRing& ring = rings[at(i)];
        while (!anywhere && !leaving.empty() && leaving.top().at <= ring.reach.lo) {
            by_bore.at(leaving.top().side).erase(leaving.top().bore);
            by_outside.at(leaving.top().side).erase(leaving.top().outside);
            leaving.pop();
        }
        const std::size_t side = ring.turns ? 1 : 0;
        const Present& outer = by_bore.at(1 - side);
        for (auto it = outer.lower_bound(ring.outside - kRounding);
             it != outer.end() && it->first <= ring.outside + window; ++it)
            pairs.push_back({.inner = ring.ref, .outer = rings[at(it->second)].ref});
        const Present& inner = by_outside.at(1 - side);
        for (auto it = inner.lower_bound(ring.bore - window);
             it != inner.end() && it->first <= ring.bore + kRounding; ++it)
            pairs.push_back({.inner = rings[at(it->second)].ref, .outer = ring.ref});
        leaving.push({.at = ring.reach.hi,
                      .bore = by_bore.at(side).emplace(ring.bore, i),
                      .outside = by_outside.at(side).emplace(ring.outside, i),
                      .side = side});
    }
    return pairs;
}

// How far the one reaches beyond where the other begins, along the axis.
Form reaches_over(const Model& model, job::RingRef start, job::RingRef stop) {
    const auto end = [&](job::RingRef ref, bool outboard) {
        const job::Ring& ring = job::at(model.job(), ref);
        const job::RingEnd& of = outboard ? ring.outboard : ring.inboard;
        return Station{.face = {ref.part, of.face}, .beyond = of.beyond};
    };
    return model.gap(end(start, false), end(stop, true));
}

// Whether the two can lie over one another along the axis.
bool overlap(const Model& model, const NestedRings& pair) {
    const std::array<Form, 2> both = lie_over_one_another(model, pair);
    return std::ranges::all_of(both, [&](const Form& form) {
        return model.ties().extremes(model.greatest_end(form), model.columns()).hi > kRounding;
    });
}

// Where nobody knows whether they do: what would say it.
std::optional<NotJudgedFor> whether_open(const Model& model, const NestedRings& pair) {
    for (const Form& form : lie_over_one_another(model, pair))
        if (model.unmeasured().open(form)) return left_open_for(model, form);
    return std::nullopt;
}

// The rings of a bearing lie in each other on purpose.
bool bearing(const Model& model, const NestedRings& pair) {
    const auto runs_in = [&](job::PartId part, int in) {
        const auto& centred = model.job().parts.at(at(part)).centred;
        if (!centred || centred->by != job::CentredBy::bearing || centred->on != in) return false;
        const double apart = job::at(model.job(), pair.outer).bore.size.nominal -
                             job::at(model.job(), pair.inner).outside.size.nominal;
        return apart <= centred->clearance.size.upper + kRounding;
    };
    return runs_in(pair.inner.part, pair.outer.part) || runs_in(pair.outer.part, pair.inner.part);
}

RadialGap gap_of(const Model& model, const NestedRings& pair, Judge judge, double inflate) {
    const RadialQuestion asked = radial_question(model, pair.inner, pair.outer);
    RadialGap gap{.inner = asked.inner,
                  .outer = asked.outer,
                  .inner_ring = pair.inner,
                  .outer_ring = pair.outer,
                  .at_least = radial_needed(model.job(), pair)};
    gap.more_than = gap.at_least <= 0.0;
    gap.gap = least_of(model, asked.least, inflate);
    gap.not_given = asked.not_given;
    gap.several_directions =
        std::ranges::any_of(asked.ends, [](const Vectors& end) { return end.several(); });
    gap.verdict = verdict(gap.gap,
                          {.least = gap.at_least,
                           .most = std::numeric_limits<double>::infinity(),
                           .more_than = gap.more_than},
                          judge);
    gap.not_judged_for = radial_not_judged_for(model, pair.inner, pair.outer);
    if (gap.verdict != Verdict::holds && !gap.not_judged_for)
        gap.not_judged_for = whether_open(model, pair);
    if (gap.not_judged_for) gap.verdict = Verdict::not_judged;
    gap.state = model.state();
    if (!gap.state.empty())
        gap.in_states = {{.state = gap.state, .value = gap.gap, .verdict = gap.verdict}};
    return gap;
}

}  // namespace

std::vector<NestedRings> nested_anywhere(const Model& model) {
    std::vector<NestedRings> pairs = nested_pairs(model, 0.0, true);
    std::erase_if(pairs, [&](const NestedRings& pair) { return bearing(model, pair); });
    return pairs;
}

std::array<Form, 2> lie_over_one_another(const Model& model, const NestedRings& pair) {
    return {reaches_over(model, pair.inner, pair.outer),
            reaches_over(model, pair.outer, pair.inner)};
}

double radial_needed(const job::Job& job, const NestedRings& pair) {
    for (const job::AirGap& each : job.air_gaps) {
        const bool these = (each.one == pair.inner && each.other == pair.outer) ||
                           (each.one == pair.outer && each.other == pair.inner);
        if (these && each.at_least) return each.at_least->value;
    }
    if (job.radial_clearance) return *job.radial_clearance;
    return job.running_clearance.value_or(0.0);
}

std::vector<RadialGap> radial_gaps(const std::vector<Model>& states, Judge judge, double inflate) {
    std::vector<RadialGap> all;
    const job::Job& job = states.front().job();
    if (!asks_radial(job)) return all;
    double within =
        std::max(job.radial_clearance.value_or(0.0), job.running_clearance.value_or(0.0));
    for (const job::AirGap& each : job.air_gaps)
        if (each.at_least) within = std::max(within, each.at_least->value);
    std::map<std::pair<std::string, std::string>, std::size_t> known;
    for (const Model& model : states) {
        for (const NestedRings& pair : nested_pairs(model, within, false)) {
            if (bearing(model, pair) || !overlap(model, pair)) continue;
            RadialGap here = gap_of(model, pair, judge, inflate);
            const auto [it, is_new] = known.try_emplace({here.inner, here.outer}, all.size());
            if (is_new) {
                all.push_back(std::move(here));
                continue;
            }
            RadialGap& before = all[it->second];
            std::vector<InState> in_states = before.in_states;
            in_states.insert(in_states.end(), here.in_states.begin(), here.in_states.end());
            if (std::pair{before.verdict, -judged(before.gap, judge).lo} <
                std::pair{here.verdict, -judged(here.gap, judge).lo})
                before = std::move(here);
            before.in_states = std::move(in_states);
        }
    }
    return all;
}

std::vector<RadialGap> listed(std::vector<RadialGap> pairs, bool all) {
    return listed_pairs(std::move(pairs), all, [](const RadialGap& pair) {
        return std::pair<int, int>{pair.inner_ring.part, pair.outer_ring.part};
    });
}

}  // namespace trialfit::stack
