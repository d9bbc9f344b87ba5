// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <trialfit/stack/answers.hpp>
#include <vector>

namespace trialfit::paper {

/// What is doubtful, each with its reason in a sentence. Empty where nothing is.
[[nodiscard]] std::vector<std::string> doubts(const stack::CheckAnswer& answer);

/// A thing to do, and the command that helps with it, ready for a shell; empty where there is none.
struct Step {
    std::string text{};
    std::string command{};
};

/// What to do next, in the order in which to do it. Never empty. It follows from the answer's
/// figures by comparison alone: which face would have to move how far, which `why` shows the sizes
/// behind it, what to read back at the trial fit.
[[nodiscard]] std::vector<Step> advice(const stack::CheckAnswer& answer);

}  // namespace trialfit::paper
