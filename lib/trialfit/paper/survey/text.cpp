// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <trialfit/paper/survey/feelers.hpp>
#include <trialfit/paper/survey/text.hpp>
#include <trialfit/paper/survey/words.hpp>
#include <trialfit/paper/text/figures.hpp>
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

Table readings(const SurveyAnswer& answer, int decimals) {
    Table out{.columns = {Column::names("reading"), "is", "the rest\nsays", "off by",
                          "in usual\nerrors"}};
    for (const ReadingFound& each : answer.readings) {
        const bool checked = each.redundancy > 0.0;
        const bool far = std::abs(each.standardised) > 3.29;
        const Ink ink = far ? Ink::bad : Ink::plain;
        const auto of = [checked](double value, int d) {
            return checked ? fixed(value, d) : std::string("-");
        };
        out.add({listed(each.name, 200),
                 fixed(each.is, decimals),
                 of(each.should_be, decimals),
                 {of(each.off_by, decimals), ink},
                 {of(each.standardised, 1), ink}},
                how_it_lay(each));
    }
    return out;
}

Document adjusted(const SurveyAnswer& answer, int decimals) {
    Document out;
    if (answer.judgement == Judgement::suspect || answer.judgement == Judgement::cannot_tell)
        return out;
    Table table{
        .columns = {Column::names("size"), "written", "adjusted", "usual\nerror was", "is now"}};
    for (const survey::SizeFound& each : answer.sizes) {
        const bool reading = std::ranges::any_of(
            answer.readings, [&](const ReadingFound& r) { return r.name == each.label; });
        if (reading) continue;
        table.add({listed(each.label, 200), fixed(each.as_written, decimals),
                   fixed(each.adjusted, decimals + 1), fixed(each.sd_before, decimals + 1),
                   fixed(each.sd_after, decimals + 1)});
    }
    if (table.rows.empty()) return out;
    return out.add(Heading{"The sizes that the readings touch"}).under(std::move(table));
}

Document unmeasured(const SurveyAnswer& answer, int decimals) {
    Document out;
    Table table{.columns = {Column::names("size"), "found", "worst case"}};
    for (const survey::UnmeasuredFound& each : answer.unmeasured)
        table.add({listed(each.label, 200), each.value ? fixed(*each.value, decimals) : "-",
                   each.value ? range(each.worst, decimals) : "not found"});
    if (table.rows.empty()) return out;
    return out.add(Heading{"What nobody has measured"}).under(std::move(table));
}

// What is wrong comes before what could be known better.
std::vector<std::string> next(const SurveyAnswer& answer) {
    std::vector<std::string> all = next_words(answer);
    if (std::string split = split_words(answer); !split.empty())
        all.insert(all.begin(), std::move(split));
    return all;
}

// Plain statistics, last.
std::string statistics(const SurveyAnswer& answer) {
    if (answer.freedom < 1) return {};
    return fmt::format("{}. Lengths in {}. {} {} known twice over.",
                       titled(answer.title, answer.file), quantity::name(answer.units),
                       agreement(answer.probability, answer.freedom), answer.freedom,
                       answer.freedom == 1 ? "figure is" : "figures are");
}

// What to do, the worst first.
Document first_lines(const SurveyAnswer& answer) {
    Document out;
    const auto say = [&out](const std::string& words, bool bad) {
        out.under(Headline{.text = words, .ink = bad ? Ink::bad : Ink::good});
    };
    for (const std::string& each : words(answer.warnings))
        say(each, true);
    for (const std::string& each : standing_off_words(answer))
        say(each, true);
    const bool bad = disagrees(answer.judgement);
    const std::string wrong = feelers_wrong(answer.feelers);
    say(wrong, true);
    if (bad || (wrong.empty() && answer.stands_off.empty())) say(survey_headline(answer), bad);
    return out;
}

}  // namespace

Document document_of(const SurveyAnswer& answer) {
    Document last;
    last.add_list("What to measure next", next(answer), List::Mark::number);
    Document feelers;
    for (const survey::FeelersFound& each : answer.feelers)
        feelers.add(feelers_section(each, answer.units));
    Document out;
    // Where only feelers say anything, they stand first.
    if (answer.judgement == Judgement::nothing_to_compare && answer.readings.empty() &&
        !feelers.blocks.empty()) {
        out.add(Paragraph{warned(words(answer.warnings), "")}).add(std::move(feelers));
        return out.add_details(std::move(last.add_list("Notes", words(answer.notes))));
    }
    const int decimals = survey_decimals(answer);
    out.add(first_lines(answer)).add(readings(answer, decimals));
    out.add_list(suspects_heading(answer), suspect_words(answer), List::Mark::number);
    last.add(unmeasured(answer, decimals)).add(adjusted(answer, decimals)).add(std::move(feelers));
    last.add_list("Notes", words(answer.notes)).add(Paragraph{statistics(answer)});
    return out.add_details(std::move(last));
}

}  // namespace trialfit::paper
