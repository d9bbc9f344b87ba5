// SPDX-License-Identifier: MIT
#pragma once

#include <trialfit/job/complaint.hpp>
#include <trialfit/job/job.hpp>

namespace trialfit::job {

/// Whether every figure of the job's `spin`, if it has one, is finite, the right way round and
/// within what it may be.
[[nodiscard]] Complaints validate_spin(const Job& job);

}  // namespace trialfit::job
