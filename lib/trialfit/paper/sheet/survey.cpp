// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <trialfit/paper/sheet/blocks.hpp>
#include <trialfit/paper/survey/feelers.hpp>
#include <trialfit/paper/survey/words.hpp>
#include <trialfit/paper/text/words.hpp>
#include <trialfit/survey/answers.hpp>

namespace trialfit::paper {

namespace {

SheetBlock readings(const survey::SurveyAnswer& survey, const Lengths& lengths) {
    SheetTable table{.caption = "With the parts trial-fitted",
                     .columns = {{.heading = "Reading"},
                                 {.heading = "Is", .figures = true},
                                 {.heading = "Should be", .figures = true},
                                 {.heading = "Off by", .figures = true}}};
    for (const survey::ReadingFound& each : survey.readings)
        table.rows.push_back({{.text = each.name},
                              {.text = each.written},
                              {.text = lengths(each.should_be)},
                              {.text = lengths(each.off_by)}});
    std::vector<std::string> words = standing_off_words(survey);
    words.push_back(survey_headline(survey));
    std::vector<std::string> suspects = suspect_words(survey);
    for (std::size_t i = 0; i < suspects.size(); ++i)
        words.push_back(fmt::format("{}. {}", i + 1, suspects[i]));
    if (std::string split = split_words(survey); !split.empty()) words.push_back(std::move(split));
    return {.heading = "Readings", .paragraphs = std::move(words), .table = std::move(table)};
}

SheetBlock feeler_block(const survey::FeelersFound& found, quantity::Unit units) {
    const FeelerWords words = feeler_words(found, units);
    SheetTable table{.caption = fmt::format("{} by {} between {} and {}, in {}; the clock as seen "
                                            "from outboard",
                                            counted(found.readings.size(), "reading"), found.gauge,
                                            found.still, found.turning, quantity::name(units)),
                     .columns = {{.heading = "Figure"},
                                 {.heading = "Is", .figures = true},
                                 {.heading = "Usual error", .figures = true},
                                 {.heading = "Towards"}}};
    for (const FeelerFigure& each : feeler_figures(found, words)) {
        table.rows.push_back(
            {{.text = each.what}, {.text = each.is}, {.text = each.sd}, {.text = each.towards}});
    }
    return {.heading = fmt::format("Gaps by feeler: {}", found.name),
            .paragraphs = feeler_findings(found, words),
            .table = std::move(table)};
}

}  // namespace

std::vector<SheetBlock> survey_blocks(const survey::SurveyAnswer& survey, const Lengths& lengths) {
    std::vector<SheetBlock> out;
    if (!survey.readings.empty()) out.push_back(readings(survey, lengths));
    for (const survey::FeelersFound& found : survey.feelers)
        out.push_back(feeler_block(found, survey.units));
    return out;
}

}  // namespace trialfit::paper
