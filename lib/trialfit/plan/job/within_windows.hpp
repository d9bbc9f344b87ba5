// SPDX-License-Identifier: MIT
#pragma once

#include <trialfit/numerics/planner/deadline.hpp>
#include <trialfit/plan/answers.hpp>
#include <trialfit/plan/job/job_plan.hpp>
#include <vector>

namespace trialfit::plan {

/// Radial gaps that fail while every reading of the plan lies within its window: rings that lie
/// clear of each other at the finish sizes, and come to lie one in the other where more comes off.
/// Looked for at both ends and in the middle of every window; of many works at the ends alone, and
/// of more than six not at all. Empty where `clock` stops first.
[[nodiscard]] std::vector<stack::RadialGap> rubbing_within_windows(const stack::Model& model,
                                                                   const JobOptions& options,
                                                                   const PlanMade& plan,
                                                                   numerics::Deadline& clock);

}  // namespace trialfit::plan
