// SPDX-License-Identifier: MIT
#pragma once

#include <trialfit/paper/document/document.hpp>
#include <trialfit/plan/answers.hpp>

namespace trialfit::paper {

/// The work of one plan, in the order in which to do it: shims (which can be taken out again)
/// first, then the cheapest cuts, the dearest part last.
[[nodiscard]] Document plan_work(const plan::PlanAnswer& answer, const plan::PlanMade& plan);

/// Every check, and the clearances that matter, before and after side by side.
[[nodiscard]] Document plan_findings(const plan::PlanAnswer& answer,
                                     const stack::CheckAnswer& after);

}  // namespace trialfit::paper
