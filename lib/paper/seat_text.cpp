// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <string_view>
#include <trialfit/paper/cautions.hpp>
#include <trialfit/paper/figures.hpp>
#include <trialfit/paper/layout.hpp>
#include <trialfit/paper/seat_text.hpp>
#include <trialfit/paper/table.hpp>
#include <trialfit/paper/words.hpp>
#include <vector>

namespace trialfit::paper {

namespace {

using seat::Estimate;
using seat::SeatAnswer;

std::string figure(double value) {
    if (!std::isfinite(value)) return "-";
    // Thousands of newtons to the last one say nothing more.
    return std::abs(value) >= 1000.0 ? fmt::format("{:.0f}", std::round(value / 10.0) * 10.0)
                                     : brief(value, 3);
}

std::string span(const Estimate& value) {
    if (value.least == value.greatest) return figure(value.least);
    return figure(value.least) + ".." + figure(value.greatest);
}

std::string with_unit(const std::string& text, const std::string& unit) {
    return unit.empty() ? text : text + " " + unit;
}

// A figure without a unit is a share of what breaks.
std::string of(const seat::Finding& f, double value) {
    return f.unit.empty() && std::isfinite(value) ? percent(value) : figure(value);
}

std::string span_of(const seat::Finding& f) {
    if (f.value.least == f.value.greatest) return of(f, f.value.least);
    return of(f, f.value.least) + ".." + of(f, f.value.greatest);
}

std::string limit(const seat::Finding& f) {
    if (f.at_least) return "≥" + of(f, *f.at_least);
    if (f.at_most) return "≤" + of(f, *f.at_most);
    return "";
}

std::string inputs(const SeatAnswer& answer, const Style& style) {
    std::string out = heading(style, "Reckoned from");
    for (const seat::Input& each : answer.inputs)
        out += paragraph(fmt::format("{}: {} ({})", each.what,
                                     with_unit(span(each.value), each.unit), harmless(each.source)),
                         style.width, "  - ");
    return out;
}

std::string name_of(const SeatAnswer& answer, const std::string& id) {
    const auto found = std::find_if(answer.findings.begin(), answer.findings.end(),
                                    [&](const seat::Finding& each) { return each.id == id; });
    return found == answer.findings.end() ? "'" + listed(id) + "' as drawn up" : found->what;
}

std::string torque_range(const SeatAnswer& answer, const Style& style) {
    return heading(style, "Nut torque within which everything holds") +
           paragraph(seat_torque(answer) +
                         " Each end is a figure above, reckoned back to the torque that just meets "
                         "its limit in the worst case of all other ranges.",
                     style.width, "  ");
}

std::string moved(const SeatAnswer& answer, const Style& style) {
    if (answer.moved.empty()) return {};
    double narrowest = answer.draw_up.middle;
    std::vector<double> written;
    const int decimals = decimals_for(answer.units, written, narrowest);
    Table out;
    out.columns = {{.heading = "As drawn up", .set = Column::Set::names},
                   {.heading = "nominal", .below = "before"},
                   {.heading = "nominal", .below = "drawn up"},
                   {.heading = "worst case", .below = "drawn up"},
                   {.heading = "", .set = Column::Set::left}};
    for (const seat::Moved& each : answer.moved)
        out.rows.push_back(
            {.cells = {{.text = listed(each.name, 120)},
                       {.text = fixed(each.nominal_before, decimals)},
                       {.text = fixed(each.nominal_after, decimals)},
                       {.text = range(each.worst_after, decimals)},
                       {.text = std::string(loud_word(each.verdict)), .ink = ink(each.verdict)}}});
    return "\n" +
           paragraph(fmt::format(
                         "The nut draws the {} in by {} {} (middle {}) from where it first "
                         "touches all over; what sits on it comes along:",
                         listed(answer.hub),
                         range({answer.draw_up.least, answer.draw_up.greatest}, decimals + 1),
                         quantity::name(answer.units), fixed(answer.draw_up.middle, decimals + 1)),
                     style.width) +
           table(out, style);
}

std::string cuts(const SeatAnswer& answer, const Style& style) {
    std::string out;
    for (const seat::CutCost& cut : answer.cuts) {
        out += paragraph(
            fmt::format(
                "{} (line {}) from {} to its keep of {} {}: {}", listed(cut.face), cut.line,
                brief(cut.size_now), brief(cut.keep), quantity::name(answer.units),
                cut.impossible.empty() ? word(cut.verdict) : std::string_view(cut.impossible)),
            style.width, "  ");
        for (const seat::Changed& each : cut.changed)
            out += paragraph(
                fmt::format(
                    "{}: {} becomes {}{}", each.what, span(each.now),
                    with_unit(span(each.then), each.unit),
                    each.verdict_then ? fmt::format(" ({})", loud_word(*each.verdict_then)) : ""),
                style.width, "    - ");
    }
    if (out.empty()) return {};
    return heading(style, "What the cuts that the job allows would cost the seat") + out;
}

}  // namespace

Table seat_figures(const SeatAnswer& answer) {
    Table out;
    out.columns = {{.heading = "Found", .set = Column::Set::names},
                   {.heading = "needed"},
                   {.heading = "middle"},
                   {.heading = "worst case"},
                   {.heading = "", .set = Column::Set::left},
                   {.heading = "", .set = Column::Set::left}};
    for (const seat::Finding& each : answer.findings) {
        std::string remark = each.source;
        if (!each.limit_source.empty()) remark += "; limit: " + each.limit_source;
        const auto verdict = each.verdict;
        out.rows.push_back({.cells = {{.text = each.what},
                                      {.text = limit(each)},
                                      {.text = of(each, each.value.middle)},
                                      {.text = span_of(each)},
                                      {.text = each.unit},
                                      {.text = verdict ? std::string(loud_word(*verdict)) : "",
                                       .ink = verdict ? ink(*verdict) : Ink::plain}},
                            .remark = harmless(remark)});
    }
    return out;
}

std::string seat_torque(const SeatAnswer& answer) {
    const seat::TorqueRange& range = answer.torque_range;
    if (range.none)
        return fmt::format(
            "None holds everything: {} asks for {} N m or more, {} for {} N m or less.",
            name_of(answer, range.below), enough(range.least, 1), name_of(answer, range.above),
            at_most(range.greatest, 1));
    std::string text = range.below.empty()
                           ? std::string("Nothing stated sets a least torque; ")
                           : fmt::format("From {} N m ({}) ", enough(range.least, 1),
                                         name_of(answer, range.below));
    return text + (range.unbounded ? "and nothing known here sets a greatest."
                                   : fmt::format("up to {} N m ({}).", at_most(range.greatest, 1),
                                                 name_of(answer, range.above)));
}

std::string seat_text(const SeatAnswer& answer, const Style& style) {
    std::string out;
    for (const std::string& line : wrapped(seat_headline(answer), style.width))
        out += painted(style, ink(answer.verdict), line) + "\n";
    if (style.brief) return out + "\n" + table(seat_figures(answer), style);
    out +=
        "\n" + paragraph(fmt::format("{} ({}). '{}' on the cone of '{}', drawn home by '{}'. "
                                     "Worst case: every range at its worst at once; middle: "
                                     "every range at its middle. Not one figure here is better "
                                     "than the friction that it stands on.",
                                     listed(answer.title, 200), listed(answer.file),
                                     listed(answer.hub), listed(answer.shaft), listed(answer.nut)),
                         style.width);
    if (answer.seated.verdict == stack::Verdict::doubtful)
        out +=
            "\n" + paragraph("Seated? Doubtful: " + harmless(answer.seated.why) + ".", style.width);
    if (answer.seated.verdict == stack::Verdict::fails)
        out +=
            "\n" + paragraph("It is not seated: every figure below is as it would be once it is.",
                             style.width);
    out += "\n" + table(seat_figures(answer), style);
    out += torque_range(answer, style);
    out += moved(answer, style);
    out += cuts(answer, style);
    out += inputs(answer, style);
    out += bullets(style, "Notes", answer.notes);
    out += bullets(style, "Not assessed", answer.not_assessed);
    out += cautions_block(style, answer.cautions, Work::tighten);
    return out;
}

}  // namespace trialfit::paper
