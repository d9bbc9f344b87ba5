// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <cmath>
#include <trialfit/paper/survey/feelers.hpp>
#include <trialfit/paper/survey/words.hpp>
#include <trialfit/paper/text/figures.hpp>
#include <trialfit/paper/text/layout.hpp>
#include <trialfit/paper/text/table.hpp>
#include <trialfit/paper/text/words.hpp>
#include <trialfit/survey/answers.hpp>

namespace trialfit::paper {

namespace {

using survey::FeelersFound;

std::string figures_table(const FeelersFound& found, const FeelerWords& words, const Style& style) {
    Table out;
    out.columns = {{.heading = "figure", .set = Column::Set::names},
                   {.heading = "is"},
                   {.heading = "usual", .below = "error"},
                   {.heading = "towards", .set = Column::Set::left}};
    for (FeelerFigure& each : feeler_figures(found, words)) {
        out.rows.push_back({.cells = {{.text = std::move(each.what)},
                                      {.text = std::move(each.is)},
                                      {.text = std::move(each.sd)},
                                      {.text = std::move(each.towards)}}});
    }
    return table(out, style);
}

std::string readings_table(const FeelersFound& found, int d, const Style& style) {
    Table out;
    const bool heights = !found.readings.front().height.empty();
    out.columns = {{.heading = "at", .set = Column::Set::names},
                   {.heading = "rotor's", .below = "mark at", .set = Column::Set::left},
                   {.heading = "is"},
                   {.heading = "the rest", .below = "says"},
                   {.heading = "off by"},
                   {.heading = "in usual", .below = "errors"}};
    for (const survey::FeelerReadingFound& each : found.readings) {
        const bool checked = each.redundancy > 0.0;
        const Ink ink = each.suspect ? Ink::bad : Ink::plain;
        std::string place = o_clock(each.clock_deg);
        if (heights) place += ", " + listed(each.height);
        if (each.suspect) place += each.left_out ? " (left out)" : " (suspect)";
        out.rows.push_back(
            {.cells = {{.text = std::move(place)},
                       {.text = o_clock(each.rotor_deg)},
                       {.text = fixed(each.is, d)},
                       {.text = checked ? fixed(each.should_be, d + 1) : "-"},
                       {.text = checked ? fixed(each.off_by, d + 1) : "-", .ink = ink},
                       {.text = checked ? fixed(each.standardised, 1) : "-", .ink = ink}}});
    }
    return table(out, style);
}

std::string how_read(const FeelersFound& found, quantity::Unit units) {
    return fmt::format(
        "Feeler '{}': {} by {} (±{}), between {} and {}. The clock is that seen from outboard, "
        "looking at the parts along the axis. Lengths in {}.",
        listed(found.name, 200), counted(found.readings.size(), "reading"), listed(found.gauge),
        brief(found.half_width), listed(found.still), listed(found.turning), quantity::name(units));
}

std::string section(const FeelersFound& found, const FeelerWords& words, const Style& style) {
    const int d = words.decimals;
    const bool bad = disagrees(found.judgement) || found.against_diameters;
    std::string out;
    const std::vector<std::string> findings = feeler_findings(found, words);
    for (std::size_t i = 0; i < findings.size(); ++i)
        for (const std::string& line : wrapped(findings[i], style.width))
            out += painted(style, bad && i == 0 ? Ink::bad : Ink::plain, line) + "\n";
    out += (out.empty() ? "" : "\n") + paragraph(how_read(found, words.units), style.width) + "\n" +
           figures_table(found, words, style) + "\n" + readings_table(found, d, style);
    std::vector<std::string> not_told = feeler_not_told(found);
    not_told.emplace_back(
        "`check` goes on using the limits that the file states for centring, runout and face "
        "runout, not these figures.");
    out += "\n";
    for (const std::string& each : not_told)
        out += paragraph(each, style.width, "  - ");
    const std::string agrees = found.freedom < 1 ? "No reading is to spare, so nothing checks them."
                                                 : agreement(found.probability, found.freedom);
    return out + paragraph(agrees, style.width, "  - ");
}

}  // namespace

std::string feelers_wrong(const std::vector<FeelersFound>& all) {
    for (const FeelersFound& found : all) {
        if (disagrees(found.judgement) || found.against_diameters)
            return fmt::format("The readings by feeler '{}' are not to be trusted: see below.",
                               listed(found.name, 200));
    }
    return {};
}

std::string feelers_text(const std::vector<FeelersFound>& all, quantity::Unit units,
                         const Style& style) {
    std::string out;
    for (const FeelersFound& found : all) {
        out += (out.empty() ? "" : "\n") + section(found, feeler_words(found, units), style);
    }
    return out;
}

}  // namespace trialfit::paper
