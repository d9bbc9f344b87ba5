// SPDX-License-Identifier: MIT
#include <algorithm>
#include <cmath>
#include <trialfit/timing/spark/slot.hpp>
#include <trialfit/trade/engine/timing_marks.hpp>

namespace trialfit::timing {

namespace {

// An arc that is free, nominal and in the worst case.
struct Free {
    double nominal = 0.0;
    double least = 0.0;
};

struct Sides {
    Free earlier;
    Free later;
};

Sides sides_of(const job::Slot& slot) {
    const quantity::Size screw = slot.screw ? slot.screw->size : quantity::exact(0.0);
    const quantity::Size& length = slot.length.size;
    const Free travel{.nominal = length.nominal - screw.nominal,
                      .least = std::max(length.lower - screw.upper, 0.0)};
    if (!slot.free_earlier) {
        const Free half{.nominal = travel.nominal / 2.0, .least = travel.least / 2.0};
        return {.earlier = half, .later = half};
    }
    const quantity::Size& room = slot.free_earlier->size;
    return {.earlier = {.nominal = room.nominal, .least = std::min(room.lower, travel.least)},
            .later = {.nominal = travel.nominal - room.nominal,
                      .least = std::max(travel.least - room.upper, 0.0)}};
}

Room room_of(const Free& free, const quantity::Size& dia) {
    return {.arc = free.nominal,
            .degrees = trade::degrees_of_arc(dia.nominal, free.nominal),
            .least_deg = trade::degrees_of_arc(dia.upper, free.least)};
}

// By how many degrees the worst case is short to one side; negative = by how many it is not.
double short_earlier(const SlotTravel& slot, const Range& turn) {
    return std::max(turn.hi, 0.0) - slot.earlier.least_deg;
}
double short_later(const SlotTravel& slot, const Range& turn) {
    return std::max(-turn.lo, 0.0) - slot.later.least_deg;
}

// By how much arc the worst case is short, on the widest circle.
double worst_short(const SlotTravel& slot, const Range& turn, double widest_dia) {
    const double degrees = std::max({short_earlier(slot, turn), short_later(slot, turn), 0.0});
    return trade::mark_offset(widest_dia, degrees).arc;
}

Turn turn_of(const Engine& engine, const SlotTravel& slot, const quantity::Size& dia,
             const CrankPoint& wanted, const FiresNow& now) {
    Turn turn;
    turn.degrees = wanted.degrees - now.degrees;
    turn.worst = {wanted.degrees - now.worst.hi, wanted.degrees - now.worst.lo};
    const bool earlier = turn.degrees >= 0.0;
    const Room& room = earlier ? slot.earlier : slot.later;
    turn.arc = trade::mark_offset(slot.dia, std::abs(turn.degrees)).arc;
    turn.free_arc = room.arc;
    turn.short_arc = std::max(turn.arc - turn.free_arc, 0.0);
    turn.short_arc_worst = std::max(worst_short(slot, turn.worst, dia.upper), turn.short_arc);
    turn.short_earlier = turn.short_arc > 0.0
                             ? earlier
                             : short_earlier(slot, turn.worst) > short_later(slot, turn.worst);
    turn.furthest_deg = now.degrees + (earlier ? room.degrees : -room.degrees);
    turn.furthest_height = trade::piston_drop(engine.crank, -turn.furthest_deg);
    if (turn.short_arc > 0.0)
        turn.verdict = Verdict::fails;
    else if (turn.short_arc_worst > 0.0)
        turn.verdict = Verdict::doubtful;
    return turn;
}

}  // namespace

SlotTravel slot_travel(const Engine& engine, const job::Slot& slot, const Firing* firing,
                       const FiresNow* now) {
    const quantity::Size& dia = slot.dia.size;
    const Sides sides = sides_of(slot);
    SlotTravel out{.dia = dia.nominal,
                   .earlier = room_of(sides.earlier, dia),
                   .later = room_of(sides.later, dia),
                   .from_middle = !slot.free_earlier.has_value(),
                   .screw = slot.screw ? std::optional(slot.screw->size.nominal) : std::nullopt,
                   .turn = {}};
    if (firing != nullptr && now != nullptr)
        out.turn = turn_of(engine, out, dia, firing->set, *now);
    return out;
}

}  // namespace trialfit::timing
