// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <string_view>
#include <trialfit/survey/answers.hpp>

namespace trialfit::paper {

/// A judgement as a program reads it: "agree".
[[nodiscard]] std::string_view judgement_word(survey::Judgement judgement);
/// Odds as people say them: "7 %", "about 1 in 4000".
[[nodiscard]] std::string chance(double probability);

}  // namespace trialfit::paper
