// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <limits>
#include <string_view>
#include <trialfit/seat/findings.hpp>
#include <trialfit/stack/bounds.hpp>

namespace trialfit::seat {

namespace {

// A limit reached to the last bits is reached.
constexpr double kSlack = 1e-9;
// The torque tables of VDI 2230 are rounded to their last digit, up to 0.34 % over what its
// formulas give: a joint tightened to them keeps within its criterion.
constexpr double kTableRounding = 0.0034;

struct Row {
    FindingId id;
    std::string_view unit;
    double Load::*figure;
    std::string_view source;
};
constexpr std::string_view kTorqueSource =
    "VDI 2230: torque = preload (0.16 P + 0.58 d2 mu + Dk/2 mu)";
constexpr std::string_view kConeSource =
    "mu F Dm / (2 (sin a + mu cos a)); Khurmi and Gupta, Theory of Machines, ch. 10";
constexpr std::string_view kLameSource = "Lame, thick tube under the cone's pressure";
constexpr std::string_view kStripSource = "FED-STD-H28/2B, thread shears at half its strength";
using Id = FindingId;
constexpr std::array<Row, 11> kRows{{
    {.id = Id::cone_torque, .unit = "N m", .figure = &Load::cone_torque_nm, .source = kConeSource},
    {.id = Id::preload, .unit = "N", .figure = &Load::preload_n, .source = kTorqueSource},
    {.id = Id::thread_stress,
     .unit = "MPa",
     .figure = &Load::thread_stress_mpa,
     .source = "VDI 2230: plastic torsion on the stress area"},
    {.id = Id::bolt_strip, .unit = "", .figure = &Load::bolt_strip_share, .source = kStripSource},
    {.id = Id::nut_strip, .unit = "", .figure = &Load::nut_strip_share, .source = kStripSource},
    {.id = Id::nut_proof,
     .unit = "",
     .figure = &Load::nut_proof_share,
     .source = "ISO 898-2 proof load"},
    {.id = Id::hub_stress, .unit = "MPa", .figure = &Load::hub_stress_mpa, .source = kLameSource},
    {.id = Id::hub_hoop, .unit = "MPa", .figure = &Load::hub_hoop_mpa, .source = kLameSource},
    {.id = Id::cone_pressure,
     .unit = "MPa",
     .figure = &Load::cone_pressure_mpa,
     .source = "normal force over the area in contact"},
    {.id = Id::draw_up,
     .unit = "mm",
     .figure = &Load::draw_up_mm,
     .source = "Lame interference of that pressure / taper"},
    {.id = Id::pull_off,
     .unit = "N",
     .figure = &Load::pull_off_n,
     .source = "N (mu cos a - sin a)"},
}};

// Without a limit these say nothing of whether it holds.
bool needs_limit(FindingId id) {
    return id == Id::cone_torque || id == Id::thread_stress || id == Id::hub_stress;
}

struct Limit {
    std::optional<double> at_least{};
    std::optional<double> at_most{};
    std::string source{};
};

Limit limit_of(FindingId id, const Joint& joint, const TorqueNeeded& needed) {
    if (id == Id::cone_torque && needed.torque_nm)
        return {.at_least = needed.torque_nm, .source = needed.source};
    if (id == Id::thread_stress && joint.bolt_yield)
        return {.at_most = kUtilisation * joint.bolt_yield->value,
                .source = fmt::format("90 % (VDI 2230, whose torque tables round up to 0.34 % over "
                                      "it) of the yield strength, {}",
                                      joint.bolt_yield->source)};
    if (id == Id::bolt_strip && joint.strength)
        return {.at_most = 1.0, .source = joint.strength->bolt_mpa.source};
    if (id == Id::nut_strip && joint.strength)
        return {.at_most = 1.0, .source = joint.strength->nut_mpa.source};
    if (id == Id::nut_proof && joint.nut_proof_load)
        return {.at_most = 1.0, .source = joint.nut_proof_load->source};
    if (id == Id::hub_stress && joint.hub_yield)
        return {.at_most = joint.hub_yield->value,
                .source = "yield strength, " + joint.hub_yield->source};
    return {};
}

SeatFinding held(SeatFinding finding, Limit limit) {
    finding.at_least = limit.at_least;
    finding.at_most = limit.at_most;
    finding.limit_source = std::move(limit.source);
    if (needs_limit(finding.id)) finding.verdict = stack::Verdict::not_judged;
    if (finding.at_least || finding.at_most)
        finding.verdict = verdict(finding.value, finding.at_least, finding.at_most,
                                  finding.id == Id::thread_stress ? kTableRounding : kSlack);
    return finding;
}

const job::Key* key_of(const Joint& joint) {
    return joint.who.seat->key ? &*joint.who.seat->key : nullptr;
}

SeatFinding key_room(const job::Job& job, const job::Key& key) {
    const double mm = quantity::mm_per(job.units);
    const quantity::Size& room = key.room.size;
    const quantity::Size& height = key.height.size;
    return {.id = key.floors_follow_cone ? Id::key_room : Id::key_entry,
            .value = {.least = (room.lower - height.upper) * mm,
                      .middle = (room.middle() - height.middle()) * mm,
                      .greatest = (room.upper - height.lower) * mm},
            .unit = "mm",
            .source = key.room.at.line == key.height.at.line
                          ? fmt::format("line {}", key.room.at.line)
                          : fmt::format("lines {} and {}", key.room.at.line, key.height.at.line)};
}

}  // namespace

stack::Verdict verdict(const Estimate& value, const std::optional<double>& at_least,
                       const std::optional<double>& at_most, double slack) {
    const auto meets = [&](double low, double high) {
        const bool above = !at_least || low >= *at_least - slack * std::abs(*at_least);
        const bool below = !at_most || high <= *at_most + slack * std::abs(*at_most);
        return above && below;
    };
    if (!meets(value.middle, value.middle)) return stack::Verdict::fails;
    return meets(value.least, value.greatest) ? stack::Verdict::holds : stack::Verdict::doubtful;
}

stack::Verdict verdict(const Estimate& value, const std::optional<double>& at_least,
                       const std::optional<double>& at_most) {
    return verdict(value, at_least, at_most, kSlack);
}

std::vector<SeatFinding> load_findings(const Joint& joint, const Tightening& tightening,
                                       const TorqueNeeded& needed) {
    std::vector<SeatFinding> findings;
    for (const Row& row : kRows) {
        const Estimate value = over_all(joint, tightening, row.figure);
        if (std::isnan(value.middle)) continue;
        findings.push_back(held({.id = row.id,
                                 .value = value,
                                 .unit = std::string(row.unit),
                                 .source = std::string(row.source)},
                                limit_of(row.id, joint, needed)));
        // Nothing holds by a guess, nor by the part of what is asked that happens to be known.
        const bool open = needed.friction_assumed || (row.id == Id::cone_torque && needed.unknown);
        std::optional<stack::Verdict>& found = findings.back().verdict;
        if (open && found) found = stack::worse(*found, stack::Verdict::not_judged);
    }
    return findings;
}

std::vector<SeatFinding> other_findings(const job::Job& job, const Joint& joint,
                                        const TurningHub& turning) {
    std::vector<SeatFinding> findings;
    findings.push_back({.id = Id::engaged,
                        .value = joint.engaged,
                        .unit = "mm",
                        .source = "the job's faces, less lead_in and run_out"});
    findings.push_back(held({.id = Id::thread_left,
                             .value = joint.thread_left,
                             .unit = "mm",
                             .source = "the job's faces"},
                            {.at_least = 0.0, .source = "a nut out of thread clamps the shaft"}));
    if (const job::Key* key = key_of(joint))
        findings.push_back(
            held(key_room(job, *key), {.at_least = 0.0, .source = "the key locates, no more"}));
    if (turning.spinning) {
        const double hoop = turning.spinning->hoop_bore_mpa;
        findings.push_back(held(
            {.id = Id::spinning_hoop,
             .of = turning.spinning_ring,
             .value = {hoop, hoop, hoop},
             .unit = "MPa",
             .source = fmt::format("Shigley, eq. 3-55, at {:.6g} rpm of line {}; "
                                   "says nothing of bursting",
                                   job.seat->speed_rpm->greatest, job.seat->speed_rpm->at.line)},
            {}));
    }
    return findings;
}

stack::Verdict worst_of(const std::vector<SeatFinding>& findings) {
    stack::Verdict worst = stack::Verdict::holds;
    for (const SeatFinding& each : findings)
        if (each.verdict) worst = stack::worse(worst, *each.verdict);
    return worst;
}

TorqueLimits torque_limits(const Joint& joint, Tightening tightening, const TorqueNeeded& needed,
                           bool all_judged) {
    tightening.torque_nm = {1.0, 1.0, 1.0};
    TorqueLimits limits;
    for (const SeatFinding& each : load_findings(joint, tightening, needed)) {
        if (each.at_least && each.value.least > 0.0)
            limits.cone_needs =
                std::max(limits.cone_needs.value_or(0.0), *each.at_least / each.value.least);
        if (!each.at_most || !all_judged || each.value.greatest <= 0.0) continue;
        const double most = *each.at_most / each.value.greatest;
        if (limits.most && *limits.most <= most) continue;
        limits.most = most;
        limits.most_by = each.id;
    }
    return limits;
}

}  // namespace trialfit::seat
