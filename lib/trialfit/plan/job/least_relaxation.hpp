// SPDX-License-Identifier: MIT
#pragma once

#include <cstddef>
#include <trialfit/numerics/planner/deadline.hpp>
#include <trialfit/numerics/planner/solve.hpp>
#include <trialfit/plan/job/from_job.hpp>
#include <vector>

namespace trialfit::plan {

/// Why there is no plan, and the one limit that has to give least, of the problem with `which` of
/// the ways of demands.either chosen.
struct LeastRelaxation {
    numerics::Conflict conflict;
    std::vector<std::size_t> which;
};

/// The reason among `stuck`, choices of ways of which one holds in every plan and none has one: the
/// one whose limit has to give least. What a limit that gives makes possible meets all of
/// demands.either, those that a choice leaves open too. Where none was looked at to its end,
/// `Conflict::sought` is false. `stuck` has at least one member.
[[nodiscard]] LeastRelaxation least_relaxation(const JobProblem& problem,
                                               const std::vector<std::vector<std::size_t>>& stuck,
                                               numerics::Deadline& clock);

}  // namespace trialfit::plan
