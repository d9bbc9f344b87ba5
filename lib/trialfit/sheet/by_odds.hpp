// SPDX-License-Identifier: MIT
#pragma once

#include <trialfit/plan/job/job_plan.hpp>

namespace trialfit::sheet {

/// Has the planner judge by odds: every check is to hold with at least the chance `level`, over 0
/// and under 1. Planner and odds do not know each other; what the one asks of the other is asked
/// here.
void judge_by_odds(double level, const stack::Options& options, plan::JobOptions& asked);

/// Puts the odds beside what the planner judges by RSS, and warns as `check` does.
void show_odds(const stack::Options& options, plan::JobOptions& asked);

}  // namespace trialfit::sheet
