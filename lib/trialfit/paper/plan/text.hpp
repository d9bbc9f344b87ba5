// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <trialfit/paper/document/document.hpp>
#include <trialfit/plan/answers.hpp>

namespace trialfit::paper {

/// Why there is no plan and the least that would make one, under headings or, on a sheet that has
/// one of its own, under sentences.
[[nodiscard]] Document no_plan(const plan::PlanAnswer& answer, bool on_sheet);

/// The answer in a sentence.
[[nodiscard]] std::string plan_headline(const plan::PlanAnswer& answer);

/// The cut sheet for the person at the lathe, then every check before and after.
[[nodiscard]] Document document_of(const plan::PlanAnswer& answer);

}  // namespace trialfit::paper
