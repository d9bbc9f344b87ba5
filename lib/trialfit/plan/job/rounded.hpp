// SPDX-License-Identifier: MIT
#pragma once

#include <trialfit/numerics/planner/solve.hpp>
#include <trialfit/plan/job/from_job.hpp>

namespace trialfit::plan {

/// Decimals that the finish size of a work is told with: what the unit is read to, or up to two
/// more where the lathe holds less than that shows.
[[nodiscard]] int finish_decimals(const job::Job& job, double holds);

/// The plan with every finish size brought to a figure of so few decimals (up to three more where
/// none of that few will do), such that all its rows and limits go on holding; of several such
/// figures the nearest. Left as it is where no figures will do.
[[nodiscard]] numerics::Solution rounded(const JobProblem& problem,
                                         const numerics::Solution& found);

}  // namespace trialfit::plan
