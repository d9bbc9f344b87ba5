// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <trialfit/paper/document/document.hpp>
#include <trialfit/plan/answers.hpp>
#include <trialfit/stack/answers.hpp>
#include <vector>

namespace trialfit::paper {

/// What is doubtful, each with its reason in a sentence. Empty where nothing is.
[[nodiscard]] std::vector<std::string> doubts(const stack::CheckAnswer& answer);

/// What to do next, in the order in which to do it, with the command that helps with it, ready for
/// a shell. Never empty. It follows from the answer's figures by comparison alone: which face would
/// have to move how far, which `why` shows the sizes behind it, what to read back at the trial fit.
/// `cheapest`: what the planner makes of the job, where that is known already.
[[nodiscard]] std::vector<Item> advice(const stack::CheckAnswer& answer,
                                       const plan::PlanAnswer* cheapest = nullptr);

}  // namespace trialfit::paper
