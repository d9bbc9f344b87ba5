// SPDX-License-Identifier: MIT
#pragma once

#include <cstddef>
#include <trialfit/numerics/planner/deadline.hpp>
#include <trialfit/numerics/planner/solve.hpp>
#include <trialfit/plan/job/from_job.hpp>
#include <vector>

namespace trialfit::plan {

/// The plans of a job's problem, every way of demands.either searched (of very many, as far as a
/// stated number of problems goes: what is left then is not proven).
struct EveryWay {
    numerics::SolveResult answer;
    /// Where there is none, and the problem's limits may give: the ways of which answer.conflict
    /// speaks, those that have to give least.
    std::vector<std::size_t> which;
};

/// The cheapest `top` solutions over every way to meet each `Either`. Stops where `clock` is up.
[[nodiscard]] EveryWay solve_every_way(const JobProblem& problem, std::size_t top,
                                       numerics::Deadline& clock);

}  // namespace trialfit::plan
