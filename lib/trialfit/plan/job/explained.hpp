// SPDX-License-Identifier: MIT
#pragma once

#include <cstddef>
#include <optional>
#include <trialfit/numerics/planner/solve.hpp>
#include <trialfit/plan/answers.hpp>
#include <trialfit/plan/job/from_job.hpp>
#include <vector>

namespace trialfit::plan {

/// A conflict of choosing(which) in the job's own names; `before` is what check says of the job as
/// it is.
[[nodiscard]] NoPlan explained(const JobProblem& problem, const std::vector<std::size_t>& which,
                               const numerics::Conflict& conflict,
                               const stack::CheckAnswer& before);

/// An automatic clearance and a check that cannot both hold, since they ask the opposite of the
/// same gap; none where there is no such pair.
[[nodiscard]] std::optional<NoPlan> opposed(const JobProblem& problem,
                                            const stack::CheckAnswer& before);

/// What leans on directions, fails by the odds of `before` and is moved by nothing that may be
/// decided: as long as there is any, there is no plan.
[[nodiscard]] NoPlan stuck_by_odds(const JobProblem& problem, const stack::CheckAnswer& before);

}  // namespace trialfit::plan
