// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <string_view>
#include <trialfit/paper/check/cautions.hpp>
#include <trialfit/paper/seat/text.hpp>
#include <trialfit/paper/text/figures.hpp>
#include <trialfit/paper/text/layout.hpp>
#include <trialfit/paper/text/table.hpp>
#include <trialfit/paper/text/words.hpp>
#include <trialfit/paper/words/words.hpp>
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
        out += paragraph(fmt::format("{}: {} ({})", words(each.what),
                                     with_unit(span(each.value), each.unit), harmless(each.source)),
                         style.width, "  - ");
    return out;
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
                cut.impossible ? std::string_view(cut.impossible->fault) : word(cut.verdict)),
            style.width, "  ");
        for (const seat::Changed& each : cut.changed)
            out += paragraph(
                fmt::format(
                    "{}: {} becomes {}{}", words(each), span(each.now),
                    with_unit(span(each.then), each.unit),
                    each.verdict_then ? fmt::format(" ({})", loud_word(*each.verdict_then)) : ""),
                style.width, "    - ");
    }
    if (out.empty()) return {};
    return heading(style, "What the cuts that the job allows would cost the seat") + out;
}

}  // namespace

std::vector<std::string> seat_sources(const SeatAnswer& answer) {
    std::vector<std::string> out;
    const auto add = [&out](const std::string& source) {
        if (!source.empty() && std::find(out.begin(), out.end(), source) == out.end())
            out.push_back(source);
    };
    for (const seat::Finding& each : answer.findings) {
        add(each.source);
        add(each.limit_source);
    }
    return out;
}

Table seat_figures(const SeatAnswer& answer) {
    const std::vector<std::string> sources = seat_sources(answer);
    const auto number = [&sources](const std::string& source) {
        return std::find(sources.begin(), sources.end(), source) - sources.begin() + 1;
    };
    Table out;
    out.columns = {{.heading = "Found", .set = Column::Set::names},
                   {.heading = "needed"},
                   {.heading = "middle"},
                   {.heading = "worst case"},
                   {.heading = "", .set = Column::Set::left},
                   {.heading = "", .set = Column::Set::left}};
    for (const seat::Finding& each : answer.findings) {
        std::string what = fmt::format("{} [{}", words(each), number(each.source));
        if (!each.limit_source.empty()) what += fmt::format(", {}", number(each.limit_source));
        const auto verdict = each.verdict;
        out.rows.push_back({.cells = {{.text = what + "]"},
                                      {.text = limit(each)},
                                      {.text = of(each, each.value.middle)},
                                      {.text = span_of(each)},
                                      {.text = each.unit},
                                      {.text = verdict ? std::string(loud_word(*verdict)) : "",
                                       .ink = verdict ? ink(*verdict) : Ink::plain}}});
    }
    return out;
}

std::string seat_torque(const SeatAnswer& answer) {
    const seat::TorqueLimits& limits = answer.torque_limits;
    std::string text = limits.cone_needs
                           ? fmt::format("The cone needs {} N m on the nut to hold {} N m",
                                         enough(*limits.cone_needs, 1), brief(*answer.needed_nm, 3))
                           : std::string("What the cone needs is not known");
    text += limits.most
                ? fmt::format("; {} N m is the most allowed for {}.", at_most(*limits.most, 1),
                              most_by_words(answer, " as drawn up"))
                : std::string(
                      "; what is the most allowed is not known, since not all that "
                      "could set it is judged.");
    return text +
           " These are limits of this reckoning and no setting: the engine maker's torque "
           "comes first.";
}

std::string seat_text(const SeatAnswer& answer, const Style& style) {
    std::string out;
    for (const std::string& line : wrapped(seat_headline(answer), style.width))
        out += painted(style, ink(answer.verdict), line) + "\n";
    out += "\n" + paragraph("The friction values are guesses; so are these results.", style.width);
    if (style.brief) return out + "\n" + table(seat_figures(answer), style);
    out +=
        "\n" + paragraph(fmt::format("{} ({}). '{}' on the cone of '{}', drawn home by '{}'. "
                                     "Worst case: every range at its worst at once; middle: "
                                     "every range at its middle.",
                                     listed(answer.title, 200), listed(answer.file),
                                     listed(answer.hub), listed(answer.shaft), listed(answer.nut)),
                         style.width);
    if (answer.seated.verdict == stack::Verdict::doubtful)
        out += "\n" + paragraph("Seated? Doubtful: " + harmless(words(answer.seated.why)) + ".",
                                style.width);
    if (answer.seated.verdict == stack::Verdict::fails)
        out +=
            "\n" + paragraph("It is not seated: every figure below is as it would be once it is.",
                             style.width);
    out += bullets(style, "Not judged", words(answer.not_judged));
    out += "\n" + table(seat_figures(answer), style);
    out += heading(style, "Where the limits of the nut torque lie") +
           paragraph(seat_torque(answer), style.width, "  ");
    out += moved(answer, style);
    out += cuts(answer, style);
    out += inputs(answer, style);
    out += heading(style, "Sources");
    int number = 0;
    for (const std::string& each : seat_sources(answer))
        out += paragraph(harmless(each), style.width, fmt::format("  [{}] ", ++number));
    out += bullets(style, "Notes", words(answer.notes));
    out += bullets(style, "Not assessed", words(answer.not_assessed));
    out += cautions_block(style, answer.cautions, Work::tighten);
    return out;
}

}  // namespace trialfit::paper
