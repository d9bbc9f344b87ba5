// SPDX-License-Identifier: MIT
#pragma once

#include <optional>
#include <string>
#include <trialfit/numerics/planner/solve.hpp>
#include <trialfit/plan/answers.hpp>
#include <trialfit/plan/job/from_job.hpp>
#include <trialfit/plan/job/job_plan.hpp>
#include <vector>

namespace trialfit::plan {

/// A plan of the inner problem with its work done on the job.
struct MadePlan {
    PlanMade plan;
    bool holds = false;  ///< every check and every gap, once it is assembled anew
    /// Radial gaps that do not.
    std::vector<stack::RadialGap> too_narrow;
    /// Clearances that do not, of a job of which not every pair was asked for.
    std::vector<stack::Clearance> fouled;
};

/// A solution as a plan: its sizes brought to figures, the job assembled anew with them and
/// checked.
[[nodiscard]] MadePlan made(const stack::Model& model, const JobOptions& options,
                            const JobProblem& problem, const numerics::Solution& found,
                            numerics::Deadline& clock);

/// What lies loose in a clearance and takes its share of a gap that the plan skims a ring for,
/// though the job does not say that it may be centred: one sentence a part.
[[nodiscard]] std::vector<Note> centring_first(const JobProblem& problem,
                                               const numerics::Solution& found);
/// The same for gaps that do not hold as things stand.
[[nodiscard]] std::vector<Note> centring_might_do(const JobProblem& problem);

}  // namespace trialfit::plan
