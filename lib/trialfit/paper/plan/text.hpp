// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <trialfit/paper/text/style.hpp>
#include <trialfit/plan/answers.hpp>

namespace trialfit::paper {

/// The answer in a sentence.
[[nodiscard]] std::string plan_headline(const plan::PlanAnswer& answer);

/// The cut sheet for the person at the lathe, then every check before and after.
[[nodiscard]] std::string plan_text(const plan::PlanAnswer& answer, const Style& style);

/// Validates against schemas/plan.schema.json.
[[nodiscard]] std::string plan_json(const plan::PlanAnswer& answer);

}  // namespace trialfit::paper
