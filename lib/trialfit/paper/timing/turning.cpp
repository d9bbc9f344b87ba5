// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <cmath>
#include <trialfit/draw/page/slot.hpp>
#include <trialfit/paper/text/figures.hpp>
#include <trialfit/paper/text/svg.hpp>
#include <trialfit/paper/text/words.hpp>
#include <trialfit/paper/timing/parts.hpp>
#include <trialfit/paper/timing/words.hpp>

// The slot, and the advance with speed.
namespace trialfit::paper {

namespace {

using timing::TimingAnswer;

Row room_row(std::string name, const timing::Room& room, const Lengths& length) {
    return {.cells = {std::move(name), length(room.arc), degrees(room.degrees),
                      degrees(room.least_deg)}};
}

std::string side(const TimingAnswer& answer, bool earlier) {
    std::string out = earlier ? "to advance (earlier)" : "to retard (later)";
    if (answer.stator_turns)
        out += fmt::format(
            ", {}", word(earlier ? answer.stator_turns->earlier : answer.stator_turns->later));
    return out;
}

// What the slot has free for turning the stator that way.
std::vector<std::string> free_words(const TimingAnswer& answer, bool earlier,
                                    const Lengths& length) {
    return {std::string(word(earlier ? answer.stator_turns->earlier : answer.stator_turns->later)),
            fmt::format("{}: {}", earlier ? "earlier" : "later",
                        length((earlier ? answer.slot->earlier : answer.slot->later).arc))};
}

// "0.50 to 0.70", all of it to the side of the turn, or "0.30 earlier to 0.70 later".
std::string turn_range(const timing::Turn& turn) {
    const bool earlier = turn.degrees >= 0.0;
    const double near = earlier ? turn.worst.lo : -turn.worst.hi;
    const double far = earlier ? turn.worst.hi : -turn.worst.lo;
    constexpr double kShown = 0.005;
    if (near > -kShown) return range({std::abs(near), far}, 2);
    return fmt::format("{} {} to {} {}", degrees(-near), earlier ? "later" : "earlier",
                       degrees(far), earlier ? "earlier" : "later");
}

std::string turn_words(const TimingAnswer& answer, const timing::Turn& turn) {
    const Lengths lengths = plain_lengths(answer);
    std::string out = fmt::format(
        "It fires at {} now ({}) and has to go {}: {} deg, {} in the worst case; {} of arc.",
        crank_place(answer.now->degrees), listed(answer.now->written),
        turn.degrees >= 0.0 ? "earlier" : "later", degrees(std::abs(turn.degrees)),
        turn_range(turn), lengths.with_unit(turn.arc));
    if (turn.short_arc > 0.0)
        out += fmt::format(
            " The slot ends at {}, {} below the top. To get there, file {} {} more on that side "
            "({} "
            "in the worst case), or move what the slot is cut in.",
            crank_place(turn.furthest_deg), lengths.with_unit(turn.furthest_height),
            lengths.least(turn.short_arc), spoken(answer.units),
            lengths.least(turn.short_arc_worst));
    const auto& allowed = answer.firing->allowed_deg;
    if (turn.short_arc > 0.0 && allowed && turn.furthest_deg >= allowed->lo &&
        turn.furthest_deg <= allowed->hi)
        out += " That is still within the limits asked for.";
    return out;
}

Table spark_table(const timing::Setting& setting, const Lengths& length) {
    std::string adds;
    for (const std::string& each : setting.adds_up)
        adds += (adds.empty() ? "" : " + ") + listed(each);
    Table out{
        .columns = {"rpm", "degrees\nBTDC", "piston\nbelow top", "ms\nBTDC", Column::names(adds)}};
    for (const timing::Spark& spark : setting.sparks)
        out.add({brief(spark.rpm, 7), degrees(spark.degrees), length(spark.height),
                 spark.milliseconds ? fixed(*spark.milliseconds, 3) : "-",
                 spark.covered ? "" : "beyond its points"});
    return out;
}

Table comparison_table(const timing::Comparison& comparison) {
    const std::string one = listed(comparison.one);
    const std::string other = listed(comparison.other);
    constexpr std::size_t kShort = 16;
    Table out{.columns = {"rpm", listed(comparison.one, kShort), listed(comparison.other, kShort),
                          "earlier\ndeg", "earlier\nms",
                          Column::names(fmt::format("'{}' against '{}'", other, one))}};
    for (const timing::Comparison::Row& row : comparison.rows) {
        const std::string word = degrees(row.more_deg) == "0.00" ? "alike"
                                 : row.more_deg > 0.0            ? "earlier"
                                                                 : "later";
        out.add({brief(row.rpm, 7), degrees(row.one_deg), degrees(row.other_deg),
                 (row.more_deg > 0.0 ? "+" : "") + degrees(row.more_deg),
                 row.more_milliseconds ? fixed(*row.more_milliseconds, 3) : "-", word});
    }
    return out;
}

}  // namespace

Picture slot_picture(const TimingAnswer& answer, const Lengths& length) {
    const timing::SlotTravel& slot = *answer.slot;
    if (!slot.screw || !answer.stator_turns) return {};
    const bool earlier_left = answer.stator_turns->earlier == trade::Turning::clockwise;
    draw::SlotView view{.left = (earlier_left ? slot.earlier : slot.later).arc,
                        .right = (earlier_left ? slot.later : slot.earlier).arc,
                        .screw = *slot.screw};
    draw::SlotWords words{.left = free_words(answer, earlier_left, length),
                          .right = free_words(answer, !earlier_left, length)};
    const double missing = slot.turn ? slot.turn->short_arc : 0.0;
    if (missing > 0.0) {
        const bool at_left = (slot.turn->degrees >= 0.0) == earlier_left;
        (at_left ? view.file_left : view.file_right) = missing;
        words.file = fmt::format("missing: {}", length.least(missing));
    }
    constexpr double kWidth = 72.0;   // mm
    constexpr double kLarger = 1.15;  // its letters, than on a page of drawings
    const SvgTitle title{
        .title = "The stator's slot at 12 o'clock, seen from outboard, drawn straight",
        .description =
            fmt::format("To the left of the screw: {}, {}. To the right: {}, {}. {}", words.left[0],
                        words.left[1], words.right[0], words.right[1], words.file),
        .id = "slot"};
    return {.label = title.title,
            .svg = svg(draw::slot_drawing(view, words, kWidth / kLarger), title, true),
            .width = kWidth};
}

Table slot_table(const TimingAnswer& answer, const Lengths& length) {
    const timing::SlotTravel& slot = *answer.slot;
    Table out{
        .columns = {Column::names(answer.stator_turns ? "the stator can turn, seen from outboard"
                                                      : "the stator can turn"),
                    "arc", "degrees", "at least"}};
    out.rows = {room_row(side(answer, true), slot.earlier, length),
                room_row(side(answer, false), slot.later, length)};
    return out;
}

Document slot_section(const TimingAnswer& answer) {
    Document out;
    out.under(slot_table(answer, plain_lengths(answer)));
    if (answer.slot->turn) out.under(Paragraph{turn_words(answer, *answer.slot->turn)});
    return out;
}

std::vector<Table> spark_tables(const TimingAnswer& answer, const Lengths& length) {
    std::vector<Table> out;
    out.reserve(answer.settings.size());
    for (const timing::Setting& setting : answer.settings)
        out.push_back(spark_table(setting, length));
    return out;
}

Document advance_section(const TimingAnswer& answer) {
    std::vector<Table> all = spark_tables(answer, plain_lengths(answer));
    for (const timing::Comparison& comparison : answer.comparisons)
        all.push_back(comparison_table(comparison));
    Document out;
    for (Table& each : all)
        out.blocks.empty() ? out.under(std::move(each)) : out.add(std::move(each));
    return out;
}

}  // namespace trialfit::paper
