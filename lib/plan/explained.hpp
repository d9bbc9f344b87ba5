// SPDX-License-Identifier: MIT
#pragma once

#include <trialfit/plan/answers.hpp>
#include <trialfit/plan/from_job.hpp>
#include <trialfit/plan/plan.hpp>

namespace trialfit::plan {

/// A conflict of the inner problem in the job's own names.
[[nodiscard]] NoPlan explained(const JobProblem& problem, const Conflict& conflict);

}  // namespace trialfit::plan
