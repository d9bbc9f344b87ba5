// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <cmath>
#include <trialfit/paper/text/figures.hpp>
#include <trialfit/paper/text/layout.hpp>
#include <trialfit/paper/text/table.hpp>
#include <trialfit/paper/text/words.hpp>
#include <trialfit/paper/timing/parts.hpp>
#include <trialfit/paper/timing/words.hpp>

// The slot, and the advance with speed.
namespace trialfit::paper {

namespace {

using timing::TimingAnswer;

Row room_row(std::string name, const timing::Room& room, const LengthSetter& length) {
    return {.cells = {{.text = std::move(name)},
                      {.text = length(room.arc)},
                      {.text = degrees(room.degrees)},
                      {.text = degrees(room.least_deg)}}};
}

std::string side(const TimingAnswer& answer, bool earlier) {
    std::string out = earlier ? "to advance (earlier)" : "to retard (later)";
    if (answer.stator_turns)
        out += fmt::format(
            ", {}", word(earlier ? answer.stator_turns->earlier : answer.stator_turns->later));
    return out;
}

std::string turn_words(const TimingAnswer& answer, const timing::Turn& turn) {
    const int decimals = length_decimals(answer);
    std::string out = fmt::format(
        "It fires at {} now ({}) and has to go {}: {} deg, {} in the worst case; {} {} of arc.",
        crank_place(answer.now->degrees), listed(answer.now->written),
        turn.degrees >= 0.0 ? "earlier" : "later", degrees(std::abs(turn.degrees)),
        range({std::abs(turn.degrees >= 0.0 ? turn.worst.lo : turn.worst.hi),
               std::abs(turn.degrees >= 0.0 ? turn.worst.hi : turn.worst.lo)},
              2),
        fixed(turn.arc, decimals), spoken(answer.units));
    if (turn.short_arc > 0.0)
        out += fmt::format(
            " The slot ends at {}, {} {} below the top. To get there, file {} {} more on that side "
            "({} in the worst case), or move what the slot is cut in.",
            crank_place(turn.furthest_deg), fixed(turn.furthest_height, decimals),
            spoken(answer.units), enough(turn.short_arc, decimals), spoken(answer.units),
            enough(turn.short_arc_worst, decimals));
    const auto& allowed = answer.firing->allowed_deg;
    if (turn.short_arc > 0.0 && allowed && turn.furthest_deg >= allowed->lo &&
        turn.furthest_deg <= allowed->hi)
        out += " That is still within the limits asked for.";
    return out;
}

Table spark_table(const timing::Setting& setting, const LengthSetter& length) {
    Table out;
    std::string adds;
    for (const std::string& each : setting.adds_up)
        adds += (adds.empty() ? "" : " + ") + listed(each);
    out.columns = {{.heading = "rpm"},
                   {.heading = "degrees", .below = "BTDC"},
                   {.heading = "piston", .below = "below top"},
                   {.heading = "ms", .below = "BTDC"},
                   {.heading = adds, .set = Column::Set::names}};
    for (const timing::Spark& spark : setting.sparks)
        out.rows.push_back(
            {.cells = {{.text = brief(spark.rpm, 7)},
                       {.text = degrees(spark.degrees)},
                       {.text = length(spark.height)},
                       {.text = spark.milliseconds ? fixed(*spark.milliseconds, 3) : "-"},
                       {.text = spark.covered ? "" : "beyond its points"}}});
    return out;
}

Table comparison_table(const timing::Comparison& comparison) {
    Table out;
    out.columns = {{.heading = "rpm"},
                   {.heading = listed(comparison.one, 16)},
                   {.heading = listed(comparison.other, 16)},
                   {.heading = "earlier", .below = "deg"},
                   {.heading = "earlier", .below = "ms"},
                   {.heading = fmt::format("'{}' against '{}'", listed(comparison.other),
                                           listed(comparison.one)),
                    .set = Column::Set::names}};
    for (const timing::Comparison::Row& row : comparison.rows) {
        const std::string word = degrees(row.more_deg) == "0.00" ? "alike"
                                 : row.more_deg > 0.0            ? "earlier"
                                                                 : "later";
        out.rows.push_back(
            {.cells = {{.text = brief(row.rpm, 7)},
                       {.text = degrees(row.one_deg)},
                       {.text = degrees(row.other_deg)},
                       {.text = (row.more_deg > 0.0 ? "+" : "") + degrees(row.more_deg)},
                       {.text = row.more_milliseconds ? fixed(*row.more_milliseconds, 3) : "-"},
                       {.text = word}}});
    }
    return out;
}

}  // namespace

Table slot_table(const TimingAnswer& answer, const LengthSetter& length) {
    const timing::SlotTravel& slot = *answer.slot;
    Table out;
    out.columns = {{.heading = answer.stator_turns ? "the stator can turn, seen from outboard"
                                                   : "the stator can turn",
                    .set = Column::Set::names},
                   {.heading = "arc"},
                   {.heading = "degrees"},
                   {.heading = "at least"}};
    out.rows = {room_row(side(answer, true), slot.earlier, length),
                room_row(side(answer, false), slot.later, length)};
    return out;
}

std::string slot_text(const TimingAnswer& answer, const Style& style) {
    std::string text = table(slot_table(answer, plain_lengths(answer)), style);
    if (answer.slot->turn) text += paragraph(turn_words(answer, *answer.slot->turn), style.width);
    return text;
}

std::vector<Table> spark_tables(const TimingAnswer& answer, const LengthSetter& length) {
    std::vector<Table> out;
    out.reserve(answer.settings.size());
    for (const timing::Setting& setting : answer.settings)
        out.push_back(spark_table(setting, length));
    return out;
}

std::string advance_text(const TimingAnswer& answer, const Style& style) {
    std::string out;
    const auto add = [&](const Table& each) {
        out += (out.empty() ? "" : "\n") + table(each, style);
    };
    for (const Table& each : spark_tables(answer, plain_lengths(answer)))
        add(each);
    for (const timing::Comparison& comparison : answer.comparisons)
        add(comparison_table(comparison));
    return out;
}

}  // namespace trialfit::paper
