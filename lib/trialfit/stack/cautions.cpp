// SPDX-License-Identifier: MIT
#include <algorithm>
#include <trialfit/stack/cautions.hpp>
#include <variant>

namespace trialfit::stack {

namespace {

bool may_turn(const job::Job& job, job::PartId part) {
    return part >= 0 && job.parts.at(part.at()).turns;
}

// A hub that is pushed home on a shaft: on a cone, or at the stand-off that was measured of it.
bool on_shaft_end(const job::Job& job, const job::Part& part) {
    return std::ranges::any_of(part.seats, [&](const job::Seat& seat) {
        if (seat.kind == job::SeatKind::cone_on_cone) return true;
        return seat.kind == job::SeatKind::face_at_offset && part.turns &&
               may_turn(job, seat.below());
    });
}

bool any_hub(const job::Job& job) {
    return std::ranges::any_of(job.parts,
                               [&](const job::Part& part) { return on_shaft_end(job, part); });
}

// A nut that turns with its bolt: what it clamps turns too.
bool nut_turns(const job::Job& job) {
    return std::ranges::any_of(job.checks, [&](const job::Check& check) {
        const auto* threads = std::get_if<job::EngagementOf>(&check.of);
        return threads != nullptr && may_turn(job, threads->one.part) &&
               may_turn(job, threads->other.part);
    });
}

bool may_be_cut(const job::Part& part) {
    return !part.cuts.empty() || !part.skims.empty();
}

// Work that was done stands in the record, whether or not the job still allows it.
bool was_cut(const job::Job& job, bool turning_only) {
    return std::ranges::any_of(job.record, [&](const job::RecordEntry& entry) {
        return std::ranges::any_of(entry.as_cut, [&](const auto& cut) {
            return !turning_only || may_turn(job, cut.face.part);
        });
    });
}

bool metal_comes_off(const job::Job& job) {
    return was_cut(job, false) || std::ranges::any_of(job.parts, may_be_cut);
}

bool turning_part_is_worked(const job::Job& job) {
    return was_cut(job, true) || std::ranges::any_of(job.parts, [](const job::Part& part) {
               return (part.turns && may_be_cut(part)) || !part.laps.empty();
           });
}

}  // namespace

std::vector<Caution> cautions(const job::Job& job) {
    const bool hub = any_hub(job) || job.seat.has_value();
    const bool ignition = job.timing.has_value() || job.spin.has_value() || !job.air_gaps.empty();
    std::vector<Caution> out;
    const auto add = [&out](bool wanted, Caution caution) {
        if (wanted) out.push_back(caution);
    };
    add(hub || ignition || turning_part_is_worked(job), Caution::may_burst);
    add(hub || nut_turns(job), Caution::nut_works_loose);
    add(hub || ignition, Caution::magnets);
    add(metal_comes_off(job), Caution::lathe);
    add(hub, Caution::puller);
    add(hub || ignition, Caution::spark_plug);
    add(hub || ignition, Caution::running_engine);
    add(job.timing.has_value(), Caution::advance);
    add(job.spin.has_value(), Caution::weight);
    add(true, Caution::maker);
    return out;
}

}  // namespace trialfit::stack
