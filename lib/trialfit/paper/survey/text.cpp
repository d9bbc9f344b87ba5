// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <trialfit/paper/survey/feelers.hpp>
#include <trialfit/paper/survey/text.hpp>
#include <trialfit/paper/survey/words.hpp>
#include <trialfit/paper/text/figures.hpp>
#include <trialfit/paper/text/layout.hpp>
#include <trialfit/paper/text/table.hpp>
#include <trialfit/paper/text/words.hpp>
#include <trialfit/paper/words/words.hpp>
#include <utility>
#include <vector>

namespace trialfit::paper {

namespace {

using survey::Judgement;
using survey::ReadingFound;
using survey::SurveyAnswer;

std::string how_it_lay(const ReadingFound& reading) {
    if (reading.jammed_part.empty()) return {};
    std::string words =
        fmt::format("{}: {} jammed on {}", reading.touching_stated ? "as stated" : "found",
                    listed(reading.touching_outboard), listed(reading.touching_inboard));
    for (const ReadingFound::Jammed& each : reading.also_jammed)
        words += fmt::format(", {} on {}", listed(each.outboard), listed(each.inboard));
    if (reading.odds_to_next && !reading.touching_stated) {
        const double odds = *reading.odds_to_next;
        words += odds >= 1000.0 ? ", over 1,000 times likelier than the next-best"
                                : fmt::format(", {:.3g} times likelier than {}", odds,
                                              listed(reading.next_best));
    }
    return words;
}

std::string readings(const SurveyAnswer& answer, int decimals, const Style& style) {
    Table out;
    out.columns = {{.heading = "reading", .set = Column::Set::names},
                   {.heading = "is"},
                   {.heading = "the rest", .below = "says"},
                   {.heading = "off by"},
                   {.heading = "in usual", .below = "errors"}};
    for (const ReadingFound& each : answer.readings) {
        const bool checked = each.redundancy > 0.0;
        const bool far = std::abs(each.standardised) > 3.29;
        const Ink ink = far ? Ink::bad : Ink::plain;
        out.rows.push_back(
            {.cells = {{.text = listed(each.name, 200)},
                       {.text = fixed(each.is, decimals)},
                       {.text = checked ? fixed(each.should_be, decimals) : "-"},
                       {.text = checked ? fixed(each.off_by, decimals) : "-", .ink = ink},
                       {.text = checked ? fixed(each.standardised, 1) : "-", .ink = ink}},
             .remark = how_it_lay(each)});
    }
    if (out.rows.empty()) return {};
    return "\n" + table(out, style);
}

std::string entries(const std::string& heading, const std::vector<std::string>& all,
                    const Style& style) {
    if (all.empty()) return {};
    std::string out = "\n" + painted(style, Ink::strong, heading) + "\n";
    for (std::size_t i = 0; i < all.size(); ++i)
        out += paragraph(all[i], style.width, fmt::format("  {}. ", i + 1));
    return out;
}

std::string adjusted(const SurveyAnswer& answer, int decimals, const Style& style) {
    if (answer.judgement == Judgement::suspect || answer.judgement == Judgement::cannot_tell)
        return {};
    Table out;
    out.columns = {{.heading = "size", .set = Column::Set::names},
                   {.heading = "written"},
                   {.heading = "adjusted"},
                   {.heading = "usual", .below = "error was"},
                   {.heading = "is now"}};
    for (const survey::SizeFound& each : answer.sizes) {
        const bool reading =
            std::any_of(answer.readings.begin(), answer.readings.end(),
                        [&](const ReadingFound& r) { return r.name == each.label; });
        if (reading) continue;
        out.rows.push_back({.cells = {{.text = listed(each.label, 200)},
                                      {.text = fixed(each.as_written, decimals)},
                                      {.text = fixed(each.adjusted, decimals + 1)},
                                      {.text = fixed(each.sd_before, decimals + 1)},
                                      {.text = fixed(each.sd_after, decimals + 1)}}});
    }
    if (out.rows.empty()) return {};
    return "\n" + painted(style, Ink::strong, "The sizes that the readings touch") + "\n" +
           table(out, style);
}

// What is wrong comes before what could be known better.
std::string next(const SurveyAnswer& answer, const Style& style) {
    std::vector<std::string> all = next_words(answer);
    if (std::string split = split_words(answer); !split.empty())
        all.insert(all.begin(), std::move(split));
    return entries("What to measure next", all, style);
}

// Plain statistics, last.
std::string statistics(const SurveyAnswer& answer, const Style& style) {
    if (answer.freedom < 1) return {};
    return "\n" +
           paragraph(fmt::format("{} ({}). Lengths in {}. {} {} known twice over.",
                                 listed(answer.title, 200), listed(answer.file),
                                 quantity::name(answer.units),
                                 agreement(answer.probability, answer.freedom), answer.freedom,
                                 answer.freedom == 1 ? "figure is" : "figures are"),
                     style.width);
}

std::string notes(const SurveyAnswer& answer, const Style& style) {
    if (answer.notes.empty()) return {};
    std::string out = "\n" + painted(style, Ink::strong, "Notes") + "\n";
    for (const std::string& note : words(answer.notes))
        out += paragraph(harmless(note), style.width, "  - ");
    return out;
}

}  // namespace

std::string survey_text(const SurveyAnswer& answer, const Style& style) {
    const int decimals = survey_decimals(answer);
    const std::string feelers = feelers_text(answer.feelers, answer.units, style);
    // Where only feelers say anything, they stand first.
    if (answer.judgement == Judgement::nothing_to_compare && answer.readings.empty() &&
        !feelers.empty())
        return (answer.warnings.empty()
                    ? std::string()
                    : paragraph(warned(words(answer.warnings), ""), style.width) + "\n") +
               (style.brief ? feelers : feelers + next(answer, style) + notes(answer, style));
    std::string out;
    const auto say = [&](const std::string& words, bool bad) {
        for (const std::string& line : wrapped(words, style.width))
            out += painted(style, bad ? Ink::bad : Ink::good, line) + "\n";
    };
    for (const std::string& each : words(answer.warnings))
        say(harmless(each), true);
    for (const std::string& each : standing_off_words(answer))
        say(each, true);
    const bool bad = disagrees(answer.judgement);
    if (std::string wrong = feelers_wrong(answer.feelers); !wrong.empty()) {
        say(wrong, true);
        if (bad) say(survey_headline(answer), true);
    } else if (bad || answer.stands_off.empty()) {
        say(survey_headline(answer), bad);
    }
    out += readings(answer, decimals, style);
    out += entries(suspects_heading(answer), suspect_words(answer), style);
    if (style.brief) return out;
    out += next(answer, style);
    out += adjusted(answer, decimals, style);
    if (!feelers.empty()) out += "\n" + feelers;
    out += notes(answer, style);
    out += statistics(answer, style);
    return out;
}

}  // namespace trialfit::paper
