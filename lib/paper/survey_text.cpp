// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <trialfit/paper/figures.hpp>
#include <trialfit/paper/layout.hpp>
#include <trialfit/paper/survey_feelers.hpp>
#include <trialfit/paper/survey_text.hpp>
#include <trialfit/paper/survey_words.hpp>
#include <trialfit/paper/table.hpp>
#include <trialfit/paper/words.hpp>
#include <vector>

namespace trialfit::paper {

namespace {

using survey::Judgement;
using survey::ReadingFound;
using survey::SurveyAnswer;
using survey::Suspect;

constexpr std::size_t kMostSuspects = 8;

std::string by_how_much(const Suspect& suspect, const SurveyAnswer& answer, int decimals) {
    return fmt::format("{} {} too {}", fixed(std::abs(suspect.off_by), decimals),
                       quantity::name(answer.units), suspect.off_by > 0.0 ? "large" : "small");
}

std::string headline(const SurveyAnswer& answer, int decimals) {
    switch (answer.judgement) {
        case Judgement::nothing_to_compare:
            return "Nothing to compare: no size in this file is known in more than one way.";
        case Judgement::agree:
            return fmt::format(
                "The readings and the sizes agree: {}.",
                answer.probability > 0.5
                    ? "they differ by no more than the gauges allow"
                    : fmt::format(
                          "{} jobs in 100 would differ as much or more by chance alone",
                          std::max(1, static_cast<int>(std::lround(100 * answer.probability)))));
        case Judgement::suspect: {
            const Suspect& first = answer.suspects.front();
            std::string slip = first.slip.empty() ? "" : fmt::format(" ({})", first.slip);
            return fmt::format(
                "They do not agree. The reading '{}' is most likely wrong: {}{}; it should read "
                "{}.",
                listed(first.name), by_how_much(first, answer, decimals), slip,
                fixed(first.should_be, decimals));
        }
        case Judgement::cannot_tell:
            return "They do not agree, and the data cannot tell which figure is wrong: any of "
                   "those listed as suspects "
                   "could be.";
        case Judgement::contradict:
            break;
    }
    return "They contradict each other: no sizes within their limits give these readings.";
}

std::string how_it_lay(const ReadingFound& reading) {
    if (reading.jammed_part.empty()) return {};
    std::string words =
        fmt::format("{}: {} jammed on {}", reading.touching_stated ? "as stated" : "found",
                    listed(reading.touching_outboard), listed(reading.touching_inboard));
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
                   {.heading = "in its", .below = "own sd"}};
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

std::string suspects(const SurveyAnswer& answer, int decimals, const Style& style) {
    if (answer.suspects.empty()) return {};
    std::string out =
        "\n" + painted(style, Ink::strong, "What could be wrong, most likely first") + "\n";
    for (std::size_t i = 0; i < std::min(answer.suspects.size(), kMostSuspects); ++i) {
        const Suspect& each = answer.suspects[i];
        std::string words;
        if (!each.gauge.empty()) {
            words = fmt::format("all that the {} read: {}", listed(each.gauge),
                                by_how_much(each, answer, decimals));
        } else {
            words =
                fmt::format("{}: {}, should be {}", listed(each.name, 200),
                            by_how_much(each, answer, decimals), fixed(each.should_be, decimals));
        }
        if (!each.slip.empty()) words += fmt::format(" ({})", each.slip);
        if (!each.not_home.empty()) {
            words += fmt::format(
                "; or the {} stood {} off its seat when it was taken: look for dirt, a key too "
                "tall, "
                "a nut on the shaft end",
                listed(each.not_home), fixed(each.stood_off, decimals));
        }
        out += paragraph(words + ".", style.width, fmt::format("  {}. ", i + 1));
    }
    if (answer.suspects.size() > kMostSuspects) {
        out += fmt::format("  and {} more.\n", answer.suspects.size() - kMostSuspects);
    }
    return out;
}

std::string adjusted(const SurveyAnswer& answer, int decimals, const Style& style) {
    if (answer.judgement == Judgement::suspect || answer.judgement == Judgement::cannot_tell)
        return {};
    Table out;
    out.columns = {{.heading = "size", .set = Column::Set::names},
                   {.heading = "written"},
                   {.heading = "adjusted"},
                   {.heading = "sd was"},
                   {.heading = "sd is"}};
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

std::string next(const SurveyAnswer& answer, int decimals, const Style& style) {
    if (answer.measure_next.empty()) return {};
    std::string out = "\n" + painted(style, Ink::strong, "What to measure next") + "\n";
    for (std::size_t i = 0; i < answer.measure_next.size(); ++i) {
        const survey::MeasureNext& each = answer.measure_next[i];
        out += paragraph(
            fmt::format("{} once more by {} (±{}): takes the sd of '{}' from {} to {}.",
                        listed(each.size, 200), listed(each.gauge), brief(each.by_half_width),
                        listed(each.check, 200), fixed(each.sd_now, decimals + 1),
                        fixed(each.sd_then, decimals + 1)),
            style.width, fmt::format("  {}. ", i + 1));
    }
    return out;
}

std::string notes(const SurveyAnswer& answer, const Style& style) {
    if (answer.notes.empty()) return {};
    std::string out = "\n" + painted(style, Ink::strong, "Notes") + "\n";
    for (const std::string& note : answer.notes)
        out += paragraph(note, style.width, "  - ");
    return out;
}

}  // namespace

std::string survey_text(const SurveyAnswer& answer, const Style& style) {
    std::vector<double> written;
    double narrowest = 0.0;
    for (const ReadingFound& each : answer.readings) {
        written.push_back(each.is);
        if (each.half_width > 0.0)
            narrowest = narrowest == 0.0 ? each.half_width : std::min(narrowest, each.half_width);
    }
    const int decimals = decimals_for(answer.units, written, narrowest);
    const bool bad = disagrees(answer.judgement);
    const std::string feelers = feelers_text(answer.feelers, answer.units, style);
    std::string out;
    // Where only feelers say anything, they stand first.
    if (answer.judgement == Judgement::nothing_to_compare && answer.readings.empty() &&
        !feelers.empty())
        return (answer.warnings.empty()
                    ? std::string()
                    : paragraph(warned(answer.warnings, ""), style.width) + "\n") +
               (style.brief ? feelers
                            : feelers + next(answer, decimals, style) + notes(answer, style));
    for (const std::string& line :
         wrapped(warned(answer.warnings, headline(answer, decimals)), style.width)) {
        out += painted(style, bad ? Ink::bad : Ink::good, line) + "\n";
    }
    if (style.brief) return out + readings(answer, decimals, style);
    if (answer.freedom > 0) {
        out += "\n" +
               paragraph(
                   fmt::format(
                       "{} ({}). Lengths in {}. {} to spare; chi-square {}, the odds of as much or "
                       "more by chance {}.",
                       listed(answer.title, 200), listed(answer.file), quantity::name(answer.units),
                       counted(static_cast<std::size_t>(answer.freedom), "figure"),
                       brief(answer.chi_square), chance(answer.probability)),
                   style.width);
    }
    out += readings(answer, decimals, style);
    out += suspects(answer, decimals, style);
    out += adjusted(answer, decimals, style);
    out += next(answer, decimals, style);
    if (!feelers.empty()) out += "\n" + feelers;
    out += notes(answer, style);
    return out;
}

}  // namespace trialfit::paper
