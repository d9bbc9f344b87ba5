// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <string_view>
#include <trialfit/survey/answers.hpp>
#include <vector>

namespace trialfit::paper {

/// The judgement's key in JSON.
[[nodiscard]] std::string_view judgement_word(survey::Judgement judgement);

/// "Agreement: good (77 %)."; "They just agree; 3 % is low: measure again." Nothing where there is
/// nothing to compare.
[[nodiscard]] std::string agreement(double probability, int freedom);

/// The decimals that the survey's lengths are told with.
[[nodiscard]] int survey_decimals(const survey::SurveyAnswer& answer);

/// The first line: what to do, or that all agrees.
[[nodiscard]] std::string survey_headline(const survey::SurveyAnswer& answer);

/// What stands off its seat, a sentence each.
[[nodiscard]] std::vector<std::string> standing_off_words(const survey::SurveyAnswer& answer);

/// What could be wrong, all of it, one entry each; the heading over them in suspects_heading().
[[nodiscard]] std::vector<std::string> suspect_words(const survey::SurveyAnswer& answer);
[[nodiscard]] std::string suspects_heading(const survey::SurveyAnswer& answer);

/// What to measure to tell the suspects apart, and what each outcome would leave: one paragraph;
/// empty where there is nothing to tell apart.
[[nodiscard]] std::string split_words(const survey::SurveyAnswer& answer);

/// What to measure next for the check that decides, one sentence each.
[[nodiscard]] std::vector<std::string> next_words(const survey::SurveyAnswer& answer);

}  // namespace trialfit::paper
