// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <trialfit/paper/document/document.hpp>
#include <trialfit/survey/answers.hpp>

namespace trialfit::paper {

/// The survey for a person: one sentence of judgement, each reading against what the rest says, the
/// suspects, what to measure next.
[[nodiscard]] Document document_of(const survey::SurveyAnswer& answer);

}  // namespace trialfit::paper
