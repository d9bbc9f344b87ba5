// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <trialfit/paper/text/style.hpp>
#include <trialfit/plan/answers.hpp>

namespace trialfit::paper {

/// The work of one plan, in the order in which to do it: shims (which can be taken out again)
/// first, then the cheapest cuts, the dearest part last.
[[nodiscard]] std::string plan_sheet(const plan::PlanAnswer& answer, const plan::PlanMade& plan,
                                     const Style& style);

/// Every check, and the clearances that matter, before and after side by side.
[[nodiscard]] std::string plan_findings(const plan::PlanAnswer& answer,
                                        const stack::CheckAnswer& after, const Style& style);

}  // namespace trialfit::paper
