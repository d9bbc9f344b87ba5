// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <trialfit/paper/seat/text.hpp>
#include <trialfit/paper/sheet/sections.hpp>
#include <trialfit/paper/text/figures.hpp>
#include <trialfit/paper/text/words.hpp>
#include <trialfit/paper/timing/parts.hpp>
#include <trialfit/paper/timing/text.hpp>
#include <trialfit/paper/timing/words.hpp>
#include <trialfit/paper/words/words.hpp>

// What tightening and timing need at the bench.
namespace trialfit::paper {

namespace {

// What is needed with a spanner or a puller in hand, and whatever does not simply hold.
bool of_use(const seat::SeatFinding& finding) {
    using Id = seat::FindingId;
    constexpr std::array<Id, 5> kUsed{Id::cone_torque, Id::preload, Id::draw_up, Id::pull_off,
                                      Id::thread_left};
    constexpr std::array<Id, 3> kNeverJudged{Id::spinning_hoop, Id::hub_hoop, Id::cone_pressure};
    const auto is_in = [&](const auto& ids) {
        return std::ranges::find(ids, finding.id) != ids.end();
    };
    if (is_in(kUsed)) return true;
    // With a limit and not judged: the hub is not home, which the first line says.
    const stack::Verdict verdict = finding.verdict.value_or(stack::Verdict::holds);
    if (verdict == stack::Verdict::not_judged && (finding.at_least || finding.at_most))
        return false;
    return verdict != stack::Verdict::holds && !is_in(kNeverJudged);
}

// All from the `first` on.
std::vector<std::string> not_judged(const std::vector<std::string>& all, std::size_t first) {
    std::vector<std::string> out;
    for (std::size_t i = first; i < all.size(); ++i)
        out.push_back("Not judged: " + all[i] + ".");
    return out;
}

std::string set_by_gauge(const timing::TimingAnswer& answer) {
    const timing::Firing& firing = *answer.firing;
    std::string out = "Asked for: " + listed(firing.written);
    if (firing.allowed_deg)
        out += fmt::format(", which is {} degrees", range(*firing.allowed_deg, 2));
    out += fmt::format(". Set by {} it is {} in the worst case",
                       firing.gauge.empty() ? "gauge, whose own error is left out,"
                                            : "gauge '" + listed(firing.gauge) + "'",
                       range(firing.set.worst, 2));
    if (const DialStep step = dial_step(answer); !step.length.empty())
        out += fmt::format("; {} is {} degrees there", step.length, step.degrees);
    return out + ".";
}

}  // namespace

Document seat_section(const seat::SeatAnswer& seat) {
    const Table all = seat_figures(seat);
    Table used{.columns = all.columns};
    for (std::size_t i = 0; i < seat.findings.size(); ++i)
        if (of_use(seat.findings[i])) used.rows.push_back(all.rows[i]);
    constexpr std::size_t kUnit = 4;
    used.columns.at(kUnit).heading = "Unit";
    used.columns.at(kUnit + 1).heading = "Verdict";
    used.caption = "The cone and its nut";
    if (seat.nut_torque_nm)
        used.caption += fmt::format(" at {}..{} N m", brief(seat.nut_torque_nm->least, 3),
                                    brief(seat.nut_torque_nm->greatest, 3));
    if (seat.seated.verdict == stack::Verdict::fails)
        used.caption += ", as it will be once the hub is home";
    if (used.rows.size() < all.rows.size())
        used.caption += "; what simply holds is left out, the command seat lists all";
    Document out;
    out.add(Heading{"Seat and nut"}).add(Paragraph{seat_headline(seat)});
    out.add(
        Paragraph{seat_torque(seat) + " The friction values are guesses; so are these results."});
    return out.add(std::move(used)).add(list_of(not_judged(words(seat.not_judged), 0)));
}

Document timing_section(const timing::TimingAnswer& answer, const Lengths& lengths) {
    Lengths set = plain_lengths(answer);
    set.inches = lengths.inches;
    const std::string unit(plural(answer.units));
    const auto captioned = [](Table table, std::string caption) {
        table.caption = std::move(caption);
        return table;
    };
    const Table top = captioned(top_table(answer, set), "The top, on the degree wheel");
    const Table marks = captioned(offset_table(answer, set),
                                  "Marks: arc along the circle and chord across it, in " + unit);
    Document out;
    out.add(Heading{"Timing"}).add(Paragraph{timing_headline(answer)});
    if (answer.firing) out.add(Paragraph{set_by_gauge(answer)});
    if (!top.rows.empty() || !marks.rows.empty()) out.add(Paragraph{offset_side(answer)});
    // The first line has the first of them.
    out.add(list_of(not_judged(words(answer.not_judged), 1)));
    const std::size_t before = out.blocks.size();
    out.add(top).add(marks);
    if (!answer.marks.found.empty()) {
        Table found = captioned(found_table(answer, set), "Marks found");
        found.columns.back().heading = "Verdict";
        out.add(std::move(found)).add(list_of({found_verdict(answer.marks)}));
    }
    if (answer.slot) {
        const bool beside = out.blocks.size() > before && answer.marks.found.empty();
        out.add(captioned(slot_table(answer, set), "The stator's slot, arc in " + unit));
        out.blocks.back().beside = beside;
        out.add(slot_picture(answer, set));
    }
    for (Table& each : spark_tables(answer, set)) {
        each.caption = "Advance with speed: " + each.columns.back().heading;
        const bool covered = std::ranges::all_of(
            each.rows, [](const Row& row) { return row.cells.back().text.empty(); });
        if (covered) {
            each.columns.pop_back();
            for (Row& row : each.rows)
                row.cells.pop_back();
        }
        out.add(std::move(each));
    }
    return out;
}

Document not_assessed(const sheet::SheetAnswer& answer, bool with_sections) {
    std::vector<std::string> told;
    using By = stack::ElsewhereJudged::By;
    for (const stack::NotAssessed& each : answer.check.not_assessed) {
        const auto* const elsewhere = std::get_if<stack::ElsewhereJudged>(&each);
        const auto judged_by = [&](By by) { return elsewhere != nullptr && elsewhere->by == by; };
        if (with_sections &&
            ((answer.seat && judged_by(By::seat)) || (answer.timing && judged_by(By::timing))))
            continue;
        told.push_back(words(each));
    }
    List list = list_of(std::move(told));
    list.run_on = true;
    return Document{}.add(Heading{"Not assessed"}).add(std::move(list));
}

}  // namespace trialfit::paper
