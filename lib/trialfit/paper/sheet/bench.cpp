// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <trialfit/paper/seat/text.hpp>
#include <trialfit/paper/sheet/blocks.hpp>
#include <trialfit/paper/text/figures.hpp>
#include <trialfit/paper/text/words.hpp>
#include <trialfit/paper/timing/parts.hpp>
#include <trialfit/paper/timing/text.hpp>
#include <trialfit/paper/timing/words.hpp>
#include <trialfit/paper/words/words.hpp>

// What tightening and timing need at the bench.
namespace trialfit::paper {

namespace {

using Kind = SheetCell::Kind;

SheetTable sheet_table(const Table& of, std::string caption) {
    SheetTable out{.caption = std::move(caption), .columns = {}, .rows = {}};
    for (const Column& each : of.columns)
        out.columns.push_back(
            {.heading = each.heading + (each.below.empty() ? "" : " " + each.below),
             .figures = each.set == Column::Set::right});
    for (const Row& row : of.rows) {
        std::vector<SheetCell> cells;
        for (const Cell& each : row.cells)
            cells.push_back(
                {.kind = each.ink == Ink::bad ? Kind::strong : Kind::text, .text = each.text});
        out.rows.push_back(std::move(cells));
    }
    return out;
}

// What is needed with a spanner or a puller in hand, and whatever does not simply hold.
bool of_use(const seat::Finding& finding) {
    using Id = seat::FindingId;
    constexpr std::array<Id, 5> kUsed{Id::cone_torque, Id::preload, Id::draw_up, Id::pull_off,
                                      Id::thread_left};
    constexpr std::array<Id, 3> kNeverJudged{Id::spinning_hoop, Id::hub_hoop, Id::cone_pressure};
    const auto is_in = [&](const auto& ids) {
        return std::find(ids.begin(), ids.end(), finding.id) != ids.end();
    };
    if (is_in(kUsed)) return true;
    // With a limit and not judged: the hub is not home, which the first line says.
    const stack::Verdict verdict = finding.verdict.value_or(stack::Verdict::holds);
    if (verdict == stack::Verdict::not_judged && (finding.at_least || finding.at_most))
        return false;
    return verdict != stack::Verdict::holds && !is_in(kNeverJudged);
}

// The sheet has no list of sources.
Row without_numbers(Row row) {
    std::string& what = row.cells.front().text;
    what.erase(std::min(what.rfind(" ["), what.size()));
    return row;
}

LengthSetter sheet_lengths(const timing::TimingAnswer& answer, const Lengths& lengths) {
    Lengths own = lengths;
    own.decimals = length_decimals(answer);
    return own;
}

std::string set_by_gauge(const timing::TimingAnswer& answer) {
    const timing::Firing& firing = *answer.firing;
    std::string out = "Asked for: " + listed(firing.written);
    if (firing.allowed_deg)
        out += fmt::format(", which is {} degrees", range(*firing.allowed_deg, 2));
    out += fmt::format(". Set by {} it is {} in the worst case",
                       firing.gauge.empty() ? "gauge" : "gauge '" + listed(firing.gauge) + "'",
                       range(firing.set.worst, 2));
    if (const DialStep step = dial_step(answer); !step.length.empty())
        out += fmt::format("; {} is {} degrees there", step.length, step.degrees);
    return out + ".";
}

}  // namespace

std::vector<SheetBlock> seat_blocks(const seat::SeatAnswer& seat) {
    SheetBlock out{.heading = "Seat and nut",
                   .paragraphs = {seat_headline(seat),
                                  seat_torque(seat) +
                                      " The friction values are guesses; so are these results."}};
    for (const std::string& each : words(seat.not_judged))
        out.bullets.push_back("Not judged: " + each + ".");
    const Table all = seat_figures(seat);
    Table used{.columns = all.columns, .rows = {}};
    for (std::size_t i = 0; i < seat.findings.size(); ++i)
        if (of_use(seat.findings[i])) used.rows.push_back(without_numbers(all.rows[i]));
    if (used.rows.empty()) return {std::move(out)};
    const std::string left_out =
        used.rows.size() == all.rows.size()
            ? ""
            : "; what simply holds is left out, the command seat lists all";
    std::string caption = "The cone and its nut";
    if (seat.nut_torque_nm)
        caption += fmt::format(" at {}..{} N m", brief(seat.nut_torque_nm->least, 3),
                               brief(seat.nut_torque_nm->greatest, 3));
    if (seat.seated.verdict == stack::Verdict::fails)
        caption += ", as it will be once the hub is home";
    out.table = sheet_table(used, caption + left_out);
    constexpr std::size_t kUnit = 4;
    out.table->columns.at(kUnit).heading = "Unit";
    out.table->columns.at(kUnit + 1).heading = "Verdict";
    return {std::move(out)};
}

std::vector<SheetBlock> timing_blocks(const timing::TimingAnswer& answer, const Lengths& lengths) {
    const LengthSetter set = sheet_lengths(answer, lengths);
    std::vector<SheetBlock> out;
    out.push_back({.heading = "Timing", .paragraphs = {timing_headline(answer)}});
    if (answer.firing) out.back().paragraphs.push_back(set_by_gauge(answer));
    // The first line has the first of them.
    for (std::size_t i = 1; i < answer.not_judged.size(); ++i)
        out.back().bullets.push_back("Not judged: " + words(answer.not_judged[i]) + ".");
    const std::string unit(plural(answer.units));
    const auto add = [&](const Table& table, const std::string& caption) {
        if (!table.rows.empty()) out.push_back({.table = sheet_table(table, caption)});
    };
    add(top_table(answer, set), "The top, on the degree wheel");
    add(offset_table(answer, set), "Marks: arc along the circle and chord across it, in " + unit);
    if (const std::string side = offset_side(answer); !side.empty() && out.back().table)
        out.front().paragraphs.push_back(side);
    if (!answer.marks.found.empty()) {
        add(found_table(answer, set), "Marks found");
        out.back().table->columns.back().heading = "Verdict";
        out.back().bullets.push_back(found_verdict(answer.marks));
    }
    if (answer.slot) {
        add(slot_table(answer, set), "The stator's slot, arc in " + unit);
        out.back().beside = out.size() > 2 && answer.marks.found.empty();
    }
    for (Table each : spark_tables(answer, set)) {
        const std::string adds = each.columns.back().heading;
        const bool covered = std::all_of(each.rows.begin(), each.rows.end(), [](const Row& row) {
            return row.cells.back().text.empty();
        });
        if (covered) {
            each.columns.pop_back();
            for (Row& row : each.rows)
                row.cells.pop_back();
        }
        add(each, "Advance with speed: " + adds);
    }
    return out;
}

}  // namespace trialfit::paper
