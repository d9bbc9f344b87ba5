// SPDX-License-Identifier: MIT
#pragma once

#include <trialfit/numerics/planner/solve.hpp>
#include <trialfit/plan/job/from_job.hpp>

namespace trialfit::plan {

/// The plan, but with the shims of a seat left as they lie wherever that costs no more and brings
/// no check further from its aim: the search counts pieces, and would rather take one out.
[[nodiscard]] numerics::Solution least_bother(const JobProblem& problem,
                                              const numerics::Solution& plan);

}  // namespace trialfit::plan
