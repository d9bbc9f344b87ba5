// SPDX-License-Identifier: MIT
#pragma once

#include <trialfit/plan/job/from_job.hpp>
#include <trialfit/plan/search/plan.hpp>

namespace trialfit::plan {

/// The plan, but with the shims of a seat left as they lie wherever that costs no more and brings
/// no check further from its aim: the search counts pieces, and would rather take one out.
[[nodiscard]] Plan least_bother(const JobProblem& problem, const Plan& plan);

}  // namespace trialfit::plan
