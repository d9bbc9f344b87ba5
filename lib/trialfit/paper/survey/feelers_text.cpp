// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <trialfit/paper/survey/feelers.hpp>
#include <trialfit/paper/survey/words.hpp>
#include <trialfit/paper/text/figures.hpp>
#include <trialfit/paper/text/words.hpp>
#include <trialfit/survey/answers.hpp>

namespace trialfit::paper {

namespace {

using survey::FeelersFound;

Table readings_table(const FeelersFound& found, int d) {
    const bool heights = !found.readings.front().height.empty();
    Table out{.columns = {Column::names("at"), Column::words("rotor's"), "is", "the rest\nsays",
                          "off by", "in usual\nerrors"}};
    out.columns[1].below = "mark at";
    for (const survey::FeelerReadingFound& each : found.readings) {
        const bool checked = each.redundancy > 0.0;
        const Ink ink = each.suspect ? Ink::bad : Ink::plain;
        std::string place = o_clock(each.clock_deg);
        if (heights) place += ", " + listed(each.height);
        if (each.suspect) place += each.left_out ? " (left out)" : " (suspect)";
        const auto of = [checked](double value, int decimals) {
            return checked ? fixed(value, decimals) : std::string("-");
        };
        out.add({place,
                 o_clock(each.rotor_deg),
                 fixed(each.is, d),
                 of(each.should_be, d + 1),
                 {of(each.off_by, d + 1), ink},
                 {of(each.standardised, 1), ink}});
    }
    return out;
}

std::string how_read(const FeelersFound& found, quantity::Unit units) {
    return fmt::format(
        "Feeler '{}': {} by {} (±{}), between {} and {}. The clock is that seen from outboard, "
        "looking at the parts along the axis. Lengths in {}.",
        listed(found.name, 200), counted(found.readings.size(), "reading"), listed(found.gauge),
        brief(found.half_width), listed(found.still), listed(found.turning), quantity::name(units));
}

}  // namespace

Document feelers_section(const FeelersFound& found, quantity::Unit units) {
    const Lengths lengths = feeler_lengths(found, units);
    const bool bad = disagrees(found.judgement) || found.against_diameters;
    Document out;
    for (const std::string& each : feeler_findings(found, lengths)) {
        const bool first = out.blocks.empty();
        Headline line{.text = each, .ink = bad && first ? Ink::bad : Ink::plain};
        first ? out.add(std::move(line)) : out.under(std::move(line));
    }
    out.add(Paragraph{how_read(found, lengths.units)});
    out.add(feeler_table(found, lengths)).add(readings_table(found, lengths.decimals));
    std::vector<std::string> not_told = feeler_not_told(found);
    not_told.emplace_back(
        "`check` goes on using the limits that the file states for centring, runout and face "
        "runout, not these figures.");
    not_told.push_back(found.freedom < 1 ? "No reading is to spare, so nothing checks them."
                                         : agreement(found.probability, found.freedom));
    return out.add(list_of(std::move(not_told)));
}

std::string feelers_wrong(const std::vector<FeelersFound>& all) {
    for (const FeelersFound& found : all) {
        if (disagrees(found.judgement) || found.against_diameters)
            return fmt::format("The readings by feeler '{}' are not to be trusted: see below.",
                               listed(found.name, 200));
    }
    return {};
}

}  // namespace trialfit::paper
