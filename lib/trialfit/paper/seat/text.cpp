// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <string_view>
#include <trialfit/paper/check/cautions.hpp>
#include <trialfit/paper/seat/text.hpp>
#include <trialfit/paper/text/figures.hpp>
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
std::string of(const seat::SeatFinding& f, double value) {
    return f.unit.empty() && std::isfinite(value) ? percent(value) : figure(value);
}

std::string span_of(const seat::SeatFinding& f) {
    if (f.value.least == f.value.greatest) return of(f, f.value.least);
    return of(f, f.value.least) + ".." + of(f, f.value.greatest);
}

std::string limit(const seat::SeatFinding& f) {
    if (f.at_least) return "≥" + of(f, *f.at_least);
    if (f.at_most) return "≤" + of(f, *f.at_most);
    return "";
}

std::vector<std::string> inputs(const SeatAnswer& answer) {
    std::vector<std::string> out;
    for (const seat::Input& each : answer.inputs)
        out.push_back(fmt::format("{}: {} ({})", words(each.what),
                                  with_unit(span(each.value), each.unit), each.source));
    return out;
}

Document moved(const SeatAnswer& answer) {
    Document out;
    if (answer.moved.empty()) return out;
    const int decimals = decimals_for(answer.units, {}, answer.draw_up.middle);
    Table table{.columns = {Column::names("As drawn up"), "nominal\nbefore", "nominal\ndrawn up",
                            "worst case\ndrawn up", Column::words("")}};
    for (const seat::Moved& each : answer.moved)
        table.add({listed(each.name, 120),
                   fixed(each.nominal_before, decimals),
                   fixed(each.nominal_after, decimals),
                   range(each.worst_after, decimals),
                   {loud_word(each.verdict), ink(each.verdict)}});
    out.add(Paragraph{fmt::format(
        "The nut draws the {} in by {} {} (middle {}) from where it first touches all over; what "
        "sits on it comes along:",
        listed(answer.hub), range({answer.draw_up.least, answer.draw_up.greatest}, decimals + 1),
        quantity::name(answer.units), fixed(answer.draw_up.middle, decimals + 1))});
    return out.under(std::move(table));
}

Document cuts(const SeatAnswer& answer) {
    Document out;
    if (answer.cuts.empty()) return out;
    out.add(Heading{"What the cuts that the job allows would cost the seat"});
    for (const seat::CutCost& cut : answer.cuts) {
        const std::string_view verdict =
            cut.impossible ? std::string_view(cut.impossible->fault) : word(cut.verdict);
        out.under(
            Paragraph{.text = fmt::format("{} (line {}) from {} to its keep of {} {}: {}",
                                          listed(cut.face), cut.line, brief(cut.size_now),
                                          brief(cut.keep), quantity::name(answer.units), verdict),
                      .indented = true});
        List costs{.nested = true};
        for (const seat::Changed& each : cut.changed) {
            costs.items.push_back(
                {.text = fmt::format("{}: {} becomes {}", words(each), span(each.now),
                                     with_unit(span(each.then), each.unit))});
            if (each.verdict_then)
                costs.items.back().text += fmt::format(" ({})", loud_word(*each.verdict_then));
        }
        out.under(std::move(costs));
    }
    return out;
}

}  // namespace

Table seat_figures(const SeatAnswer& answer) {
    Table out{.columns = {Column::names("Found"), "needed", "middle", "worst case",
                          Column::words(""), Column::words("")}};
    for (const seat::SeatFinding& each : answer.findings) {
        const auto verdict = each.verdict;
        out.add({words(each), limit(each), of(each, each.value.middle), span_of(each), each.unit,
                 verdict ? Cell(loud_word(*verdict), ink(*verdict)) : Cell()});
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

Document document_of(const SeatAnswer& answer) {
    Document out;
    out.under(Headline{.text = seat_headline(answer), .ink = ink(answer.verdict)});
    out.add(Paragraph{"The friction values are guesses; so are these results."});
    Document about;
    about.add(Paragraph{fmt::format(
        "{}. '{}' on the cone of '{}', drawn home by '{}'. Worst case: every range at its worst at "
        "once; middle: every range at its middle.",
        titled(answer.title, answer.file), listed(answer.hub), listed(answer.shaft),
        listed(answer.nut))});
    if (answer.seated.verdict == stack::Verdict::doubtful)
        about.add(Paragraph{"Seated? Doubtful: " + words(answer.seated.why) + "."});
    if (answer.seated.verdict == stack::Verdict::fails)
        about.add(
            Paragraph{fmt::format("{} not seated: every figure below is as it would be once it is.",
                                  answer.seated.why->held == seat::Unseated::hub
                                      ? "It is"
                                      : "The " + listed(answer.seated.why->part) + " is")});
    else if (std::ranges::any_of(answer.findings, [](const seat::SeatFinding& each) {
                 return (each.id == seat::FindingId::key_room ||
                         each.id == seat::FindingId::key_entry) &&
                        each.verdict == stack::Verdict::fails;
             }))
        about.add(Paragraph{"Every figure below is as it would be without the key."});
    about.add_list("Not judged", words(answer.not_judged));
    Table figures = seat_figures(answer);
    Sources sources;
    for (std::size_t i = 0; i < answer.findings.size(); ++i) {
        const seat::SeatFinding& each = answer.findings[i];
        std::string& what = figures.rows[i].cells.front().text;
        what += fmt::format(" [{}", sources.number(each.source));
        if (!each.limit_source.empty())
            what += fmt::format(", {}", sources.number(each.limit_source));
        what += "]";
    }
    out.add_details(std::move(about)).add(std::move(figures));
    Document last;
    last.add(Heading{"Where the limits of the nut torque lie"});
    last.under(Paragraph{.text = seat_torque(answer), .indented = true});
    last.add(moved(answer)).add(cuts(answer));
    last.add(Heading{"Reckoned from"}).under(list_of(inputs(answer)));
    last.add(Heading{"Sources"}).under(list_of(std::move(sources.all), List::Mark::source));
    last.add_list("Notes", words(answer.notes));
    last.add_list("Not assessed", words(answer.not_assessed));
    last.add(cautions_block(answer.cautions, NextWork::tighten));
    return out.add_details(std::move(last));
}

}  // namespace trialfit::paper
