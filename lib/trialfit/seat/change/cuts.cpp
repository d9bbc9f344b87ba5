// SPDX-License-Identifier: MIT
#include <algorithm>
#include <cmath>
#include <cstddef>
#include <trialfit/seat/change/changes.hpp>
#include <trialfit/seat/change/cuts.hpp>
#include <trialfit/stack/bounds.hpp>
#include <utility>
#include <variant>

namespace trialfit::seat {

namespace {

struct State {
    std::vector<SeatFinding> findings;
    Contact contact;
};

State state_of(const job::Job& job, const Joint& joint, const Tightening& tightening,
               const TorqueNeeded& needed, const TurningHub& turning) {
    State state{.findings = load_findings(joint, tightening, needed), .contact = joint.contact};
    const auto least =
        std::min_element(joint.contacts.begin(), joint.contacts.end(),
                         [](const Contact& a, const Contact& b) { return a.length < b.length; });
    const auto most =
        std::max_element(joint.contacts.begin(), joint.contacts.end(),
                         [](const Contact& a, const Contact& b) { return a.length < b.length; });
    state.findings.push_back({.id = FindingId::contact,
                              .value = {least->length, joint.contact.length, most->length},
                              .unit = "mm",
                              .source = "the job's cones and rings"});
    for (SeatFinding& each : other_findings(job, joint, turning))
        state.findings.push_back(std::move(each));
    return state;
}

bool differs(const Estimate& a, const Estimate& b) {
    const double scale = 1e-9 * std::max({1e-6, std::abs(a.least), std::abs(a.greatest)});
    return std::abs(a.least - b.least) > scale || std::abs(a.middle - b.middle) > scale ||
           std::abs(a.greatest - b.greatest) > scale;
}

std::vector<Changed> changed(const State& now, const State& then) {
    std::vector<Changed> rows;
    for (const SeatFinding& each : now.findings) {
        const auto after =
            std::find_if(then.findings.begin(), then.findings.end(),
                         [&](const SeatFinding& other) { return other.id == each.id; });
        if (after == then.findings.end() || !differs(each.value, after->value)) continue;
        rows.push_back({.id = each.id,
                        .of = each.of,
                        .unit = each.unit,
                        .now = each.value,
                        .then = after->value,
                        .verdict_then = after->verdict});
    }
    return rows;
}

// The seat once the cut is at its `keep`; why there is none, where there is none.
void take(const job::Job& then, const State& now, const Tightening& tightening,
          const TorqueNeeded& needed, const TurningHub& turning, CutCost& cost) {
    const auto fault = [&](const job::Complaints& complaints) {
        cost.impossible = complaints.front();
        cost.verdict = stack::Verdict::fails;
    };
    const auto built = stack::Model::of(then);
    if (const auto* none = std::get_if<job::Complaints>(&built)) return fault(*none);
    const auto made = stack::joint_of(std::get<stack::Model>(built));
    if (const auto* none = std::get_if<job::Complaints>(&made)) return fault(*none);
    const State after = state_of(then, std::get<Joint>(made), tightening, needed, turning);
    cost.changed = changed(now, after);
    cost.verdict = worst_of(after.findings);
}

}  // namespace

std::vector<CutCost> cut_costs(const stack::Model& model, const Joint& joint_now,
                               const Tightening& tightening, const TorqueNeeded& needed,
                               const TurningHub& turning) {
    const job::Job& job = model.job();
    const State now = state_of(job, joint_now, tightening, needed, turning);
    std::vector<CutCost> costs;
    for (const job::PartId p : job::indices(job.parts))
        for (const job::Cut& cut : job.parts.at(static_cast<std::size_t>(p)).cuts) {
            const stack::Form size = model.gap({.face = {p, cut.measure}}, {.face = {p, cut.face}});
            if (model.unmeasured().open(size)) continue;  // what it would cost is not known
            const double length = stack::bounds(model, size, 1.0).nominal;
            if (std::abs(length) <= cut.keep) continue;
            CutCost cost{.face = job::name(job, job::FaceRef{p, cut.face}),
                         .line = cut.at.line,
                         .size_now = std::abs(length),
                         .keep = cut.keep};
            take(cut_to_keep(job, p, cut, length), now, tightening, needed, turning, cost);
            if (!cost.changed.empty() || cost.impossible) costs.push_back(std::move(cost));
        }
    return costs;
}

}  // namespace trialfit::seat
