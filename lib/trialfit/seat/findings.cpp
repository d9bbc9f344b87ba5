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
// The torque tables of VDI 2230 are rounded to their last digit, up to 0.33 % over what its
// formulas give: a joint tightened to them keeps within its criterion.
constexpr double kTableRounding = 0.0034;

struct Row {
    std::string_view id;
    std::string_view what;
    std::string_view unit;
    double Load::*figure;
    std::string_view source;
};
constexpr std::string_view kTorque = "VDI 2230: torque = preload (0.16 P + 0.58 d2 mu + Dk/2 mu)";
constexpr std::string_view kCone =
    "mu F Dm / (2 (sin a + mu cos a)); Khurmi and Gupta, Theory of Machines, ch. 10";
constexpr std::string_view kLame = "Lame, thick tube under the cone's pressure";
constexpr std::string_view kStrip = "FED-STD-H28/2B, thread shears at half its strength";
constexpr std::array<Row, 11> kRows{{
    {"cone_torque", "torque that the cone holds", "N m", &Load::cone_torque_nm, kCone},
    {"preload", "preload, nut on hub", "N", &Load::preload_n, kTorque},
    {"thread_stress", "thread, tension and torsion", "MPa", &Load::thread_stress_mpa,
     "VDI 2230: plastic torsion on the stress area"},
    {"bolt_strip", "load on the external thread, of what strips it", "", &Load::bolt_strip_share,
     kStrip},
    {"nut_strip", "load on the internal thread, of what strips it", "", &Load::nut_strip_share,
     kStrip},
    {"nut_proof", "load on the nut, of its proof load", "", &Load::nut_proof_share,
     "ISO 898-2 proof load"},
    {"hub_stress", "hub at its bore, equivalent stress", "MPa", &Load::hub_stress_mpa, kLame},
    {"hub_hoop", "hub at its bore, hoop stress", "MPa", &Load::hub_hoop_mpa, kLame},
    {"cone_pressure", "pressure on the cone", "MPa", &Load::cone_pressure_mpa,
     "normal force over the area in contact"},
    {"draw_up", "draw-up along the axis", "mm", &Load::draw_up_mm,
     "Lame interference of that pressure / taper"},
    {"pull_off", "force to pull the hub off, nut slack", "N", &Load::pull_off_n,
     "N (mu cos a - sin a)"},
}};

// Without a limit these say nothing of whether it holds.
constexpr std::array<std::string_view, 3> kNeedLimits{"cone_torque", "thread_stress", "hub_stress"};
template <std::size_t count>
bool is_one_of(const std::array<std::string_view, count>& ids, std::string_view id) {
    return std::find(ids.begin(), ids.end(), id) != ids.end();
}

struct Limit {
    std::optional<double> at_least{};
    std::optional<double> at_most{};
    std::string source{};
};

Limit limit_of(std::string_view id, const Joint& joint, const Needed& needed) {
    if (id == "cone_torque" && needed.torque_nm)
        return {.at_least = needed.torque_nm, .source = needed.source};
    if (id == "thread_stress" && joint.bolt_yield)
        return {.at_most = kUtilisation * joint.bolt_yield->value,
                .source = fmt::format("90 % (VDI 2230, whose torque tables round up to 0.33 % over "
                                      "it) of the yield strength, {}",
                                      joint.bolt_yield->source)};
    if (id == "bolt_strip" && joint.strength)
        return {.at_most = 1.0, .source = joint.strength->bolt_mpa.source};
    if (id == "nut_strip" && joint.strength)
        return {.at_most = 1.0, .source = joint.strength->nut_mpa.source};
    if (id == "nut_proof" && joint.nut_proof_load)
        return {.at_most = 1.0, .source = joint.nut_proof_load->source};
    if (id == "hub_stress" && joint.hub_yield)
        return {.at_most = joint.hub_yield->value,
                .source = "yield strength, " + joint.hub_yield->source};
    return {};
}

Finding held(Finding finding, Limit limit) {
    finding.at_least = limit.at_least;
    finding.at_most = limit.at_most;
    finding.limit_source = std::move(limit.source);
    if (is_one_of(kNeedLimits, finding.id)) finding.verdict = stack::Verdict::not_judged;
    if (finding.at_least || finding.at_most)
        finding.verdict = verdict(finding.value, finding.at_least, finding.at_most,
                                  finding.id == "thread_stress" ? kTableRounding : kSlack);
    return finding;
}

const job::Key* key_of(const Joint& joint) {
    return joint.who.seat->key ? &*joint.who.seat->key : nullptr;
}

Finding key_room(const job::Job& job, const job::Key& key) {
    const double mm = quantity::mm_per(job.units);
    const quantity::Size& room = key.room.size;
    const quantity::Size& height = key.height.size;
    return {.id = "key_room",
            .what = key.floors_follow_cone ? "room over the key (less than 0 holds the hub off)"
                                           : "room over the key (less than 0: it does not go in)",
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

std::vector<Finding> load_findings(const Joint& joint, const Tightening& tightening,
                                   const Needed& needed) {
    std::vector<Finding> findings;
    for (const Row& row : kRows) {
        const Estimate value = over_all(joint, tightening, row.figure);
        if (std::isnan(value.middle)) continue;
        findings.push_back(held({.id = std::string(row.id),
                                 .what = std::string(row.what),
                                 .value = value,
                                 .unit = std::string(row.unit),
                                 .source = std::string(row.source)},
                                limit_of(row.id, joint, needed)));
        // Nothing holds by a guess, nor by the part of what is asked that happens to be known.
        const bool open =
            needed.friction_assumed || (row.id == "cone_torque" && !needed.unknown.empty());
        std::optional<stack::Verdict>& found = findings.back().verdict;
        if (open && found) found = stack::worse(*found, stack::Verdict::not_judged);
    }
    return findings;
}

std::vector<Finding> other_findings(const job::Job& job, const Joint& joint,
                                    const Turning& turning) {
    std::vector<Finding> findings;
    findings.push_back({.id = "engaged",
                        .what = "whole thread engaged",
                        .value = joint.engaged,
                        .unit = "mm",
                        .source = "the job's faces, less lead_in and run_out"});
    findings.push_back(held({.id = "thread_left",
                             .what = "thread left for the nut to advance by",
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
            {.id = "spinning_hoop",
             .what =
                 fmt::format("'{}' spinning as a free ring, hoop stress", turning.spinning_ring),
             .value = {hoop, hoop, hoop},
             .unit = "MPa",
             .source = fmt::format("Shigley, eq. 3-55, at {:.6g} rpm of line {}; "
                                   "says nothing of bursting",
                                   job.seat->speed_rpm->greatest, job.seat->speed_rpm->at.line)},
            {}));
    }
    return findings;
}

stack::Verdict worst_of(const std::vector<Finding>& findings) {
    stack::Verdict worst = stack::Verdict::holds;
    for (const Finding& each : findings)
        if (each.verdict) worst = stack::worse(worst, *each.verdict);
    return worst;
}

TorqueLimits torque_limits(const Joint& joint, Tightening tightening, const Needed& needed,
                           bool all_judged) {
    tightening.torque_nm = {1.0, 1.0, 1.0};
    TorqueLimits limits;
    for (const Finding& each : load_findings(joint, tightening, needed)) {
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
