// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <trialfit/paper/document/document.hpp>
#include <trialfit/plan/answers.hpp>
#include <trialfit/stack/answers.hpp>

namespace trialfit::paper {

struct CheckFinding;

/// What is judged by and in which states, in a few sentences.
[[nodiscard]] std::string told_judging(const stack::CheckAnswer& answer);
/// "decided in state run; fit 0.42 to 0.60"; empty where there is one state, or all are alike.
[[nodiscard]] std::string told_in_states(const CheckFinding& finding, int decimals);
/// What a check is about, and its limits and value in the words in which they were asked.
[[nodiscard]] std::string told_question(const stack::CheckResult& check);

/// What `check` found, for people: the answer in plain words first, then the clearances and checks
/// (needed, nominal, worst case, RSS, verdict), what is doubtful and why, what to do next, notes,
/// what was not assessed, and the cautions. Figures rounded, the unit stated once. Of very many
/// clearances the tightest, unless `all_rows` are asked for. `cheapest`: what the planner makes of
/// the job, where that is known already.
[[nodiscard]] Document document_of(const stack::CheckAnswer& answer, bool all_rows = false,
                                   const plan::PlanAnswer* cheapest = nullptr);

}  // namespace trialfit::paper
