// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <trialfit/paper/sheet/sections.hpp>
#include <trialfit/paper/survey/feelers.hpp>
#include <trialfit/paper/survey/words.hpp>
#include <trialfit/paper/text/words.hpp>
#include <trialfit/survey/answers.hpp>

namespace trialfit::paper {

namespace {

Document readings(const survey::SurveyAnswer& survey, const Lengths& lengths) {
    Table table{.columns = {Column::names("Reading"), "Is", "Should be", "Off by"},
                .caption = "With the parts trial-fitted"};
    // What nothing else says, nothing checks.
    for (const survey::ReadingFound& each : survey.readings) {
        const bool checked = each.redundancy > 0.0;
        table.add({each.name, each.written, checked ? lengths(each.should_be) : "-",
                   checked ? lengths(each.off_by) : "-"});
    }
    std::vector<std::string> words = standing_off_words(survey);
    words.push_back(survey_headline(survey));
    std::size_t number = 0;
    for (const std::string& each : suspect_words(survey))
        words.push_back(fmt::format("{}. {}", ++number, each));
    words.push_back(split_words(survey));
    Document out;
    out.add(Heading{"Readings"});
    for (std::string& each : words)
        out.add(Paragraph{std::move(each)});
    return out.add(std::move(table));
}

Document feelers(const survey::FeelersFound& found, quantity::Unit units) {
    const Lengths lengths = feeler_lengths(found, units);
    Document out;
    out.add(Heading{fmt::format("Gaps by feeler: {}", found.name)});
    for (std::string& each : feeler_findings(found, lengths))
        out.add(Paragraph{std::move(each)});
    Table table = feeler_table(found, lengths);
    table.caption =
        fmt::format("{} by {} between {} and {}, in {}; the clock as seen from outboard",
                    counted(found.readings.size(), "reading"), found.gauge, found.still,
                    found.turning, quantity::name(units));
    table.columns = {Column::names("Figure"), "Is", "Usual error", Column::words("Towards")};
    return out.add(std::move(table));
}

}  // namespace

Document survey_section(const survey::SurveyAnswer& survey, const Lengths& lengths) {
    Document out;
    if (!survey.readings.empty()) out.add(readings(survey, lengths));
    for (const survey::FeelersFound& found : survey.feelers)
        out.add(feelers(found, survey.units));
    return out;
}

}  // namespace trialfit::paper
