// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <trialfit/paper/document/text.hpp>
#include <trialfit/survey/answers.hpp>

namespace trialfit::paper {

/// The survey for a person: one sentence of judgement, each reading against what the rest says, the
/// suspects, what to measure next.
[[nodiscard]] Document document_of(const survey::SurveyAnswer& answer);
/// The same as text, within the style's width.
[[nodiscard]] inline std::string survey_text(const survey::SurveyAnswer& answer,
                                             const Style& style) {
    return text_of(document_of(answer), style);
}

/// The survey for a program; validates against schemas/survey.schema.json.
[[nodiscard]] std::string survey_json(const survey::SurveyAnswer& answer);

}  // namespace trialfit::paper
