// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <cmath>
#include <trialfit/paper/text/figures.hpp>
#include <trialfit/paper/text/words.hpp>
#include <trialfit/paper/timing/parts.hpp>
#include <trialfit/paper/timing/text.hpp>
#include <trialfit/paper/timing/words.hpp>
#include <trialfit/paper/words/words.hpp>

namespace trialfit::paper {

namespace {

using timing::TimingAnswer;

// "17.2 degrees BTDC (before the top), where the piston stands 1.40 mm below its top"
std::string where_to(const TimingAnswer& answer) {
    const timing::CrankPoint& set = answer.firing->set;
    const Lengths lengths = plain_lengths(answer);
    const std::string height = lengths.with_unit(set.height);
    const std::string reading = lengths.with_unit(set.gauge_reading);
    std::string out = crank_place(set.degrees) + (set.degrees > 0.0 ? " (before the top)" : "") +
                      ", where the piston stands " + height + " below its top";
    if (reading != height) out += " and a gauge in the plug hole reads " + reading;
    return out;
}

std::string of_slot(const TimingAnswer& answer, const timing::Turn& turn) {
    const Lengths lengths = plain_lengths(answer);
    // Read to the tenth of a degree, it fires there already.
    if (turn.verdict == stack::Verdict::holds && sentence_degrees(std::abs(turn.degrees)) == "0.0")
        return fmt::format("It fires at {} now, as asked for: the stator can stay where it is.",
                           crank_place(answer.now->degrees));
    const std::string needed =
        fmt::format("to fire at {} the stator must turn {} ({} at the slot)",
                    crank_place(answer.firing->set.degrees), stator_turn(answer, turn.degrees),
                    lengths.with_unit(turn.arc));
    const std::string lets = lengths.with_unit(turn.free_arc);
    switch (turn.verdict) {
        case stack::Verdict::fails:
            return fmt::format(
                "The slot is too short: {}, the slot lets it {}, and {} {} are missing. At its end "
                "it fires at {}.",
                needed, lets, lengths.least(turn.short_arc), spoken(answer.units),
                crank_place(turn.furthest_deg));
        case stack::Verdict::not_judged:
        case stack::Verdict::doubtful:
            return fmt::format(
                "The slot may be too short: {} and the slot lets it {}, but in the worst case {} "
                "{} are missing{}.",
                needed, lets, lengths.least(turn.short_arc_worst), spoken(answer.units),
                turn.short_earlier == (turn.degrees >= 0.0) ? ""
                : turn.short_earlier                        ? " on the other side, to advance it"
                                                            : " on the other side, to retard it");
        case stack::Verdict::holds:
            break;
    }
    return fmt::format("The slot reaches: {}, and the slot lets it {}.", needed, lets);
}

std::string answered(const TimingAnswer& answer) {
    if (answer.slot && answer.slot->turn) return of_slot(answer, *answer.slot->turn);
    if (answer.firing) return "Fire at " + where_to(answer) + ".";
    if (answer.top.by_stops)
        return fmt::format("The top is at {} on the wheel, to within {} degrees.",
                           degrees(answer.top.by_stops->top_deg),
                           degrees(answer.top.by_stops->worst_deg));
    return "No firing point is asked for ('fire_at'): here is what the other figures tell.";
}

// Whether the gauge keeps it within its limits, where that changes the answer.
std::string of_gauge(const timing::Firing& firing) {
    switch (firing.gauge_keeps_it.value_or(stack::Verdict::holds)) {
        case stack::Verdict::fails:
            return " It lies outside of the limits asked for.";
        case stack::Verdict::doubtful:
            return fmt::format(" Gauge '{}' may leave the limits asked for.", listed(firing.gauge));
        case stack::Verdict::holds:
        case stack::Verdict::not_judged:
            break;
    }
    return "";
}

}  // namespace

std::string timing_headline(const TimingAnswer& answer) {
    std::string out = answered(answer);
    if (answer.firing) out += of_gauge(*answer.firing);
    if (answer.not_judged.empty()) return out;
    const std::size_t more = answer.not_judged.size() - 1;
    return out + fmt::format(" NOT JUDGED: {}{}.", words(answer.not_judged.front()),
                             more == 0 ? "" : fmt::format(", and {} more", more));
}

}  // namespace trialfit::paper
