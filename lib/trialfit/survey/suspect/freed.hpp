// SPDX-License-Identifier: MIT
#pragma once

#include <trialfit/stack/model/model.hpp>
#include <trialfit/survey/answers.hpp>
#include <vector>

namespace trialfit::survey {

/// Written sizes that would explain a disagreement alone, if the parts then lay otherwise when the
/// readings were taken: each in turn is taken as unmeasured, the contacts are found anew, and the
/// rest must agree (kByChance). `chi_square`: with all of them in force. The greatest drop first;
/// empty of a job with very many sizes, or one that work was done on.
[[nodiscard]] std::vector<Suspect> freed_suspects(const stack::Model& model, double chi_square);

}  // namespace trialfit::survey
