// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <trialfit/paper/text/style.hpp>
#include <trialfit/survey/answers.hpp>

namespace trialfit::paper {

/// The survey for a person: one sentence of judgement, each reading against what the rest says, the
/// suspects, what to measure next.
[[nodiscard]] std::string survey_text(const survey::SurveyAnswer& answer, const Style& style);

/// The survey for a program; validates against schemas/survey.schema.json.
[[nodiscard]] std::string survey_json(const survey::SurveyAnswer& answer);

}  // namespace trialfit::paper
