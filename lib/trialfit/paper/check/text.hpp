// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <trialfit/paper/text/style.hpp>
#include <trialfit/stack/answers.hpp>

namespace trialfit::paper {

/// What `check` found, for people: the answer in plain words first, then the clearances and checks
/// (needed, nominal, worst case, RSS, verdict), what is doubtful and why, what to do next, notes,
/// what was not assessed, and the cautions. Within the style's width; figures rounded, the unit
/// stated once.
[[nodiscard]] std::string check_text(const stack::CheckAnswer& answer, const Style& style);

}  // namespace trialfit::paper
