// SPDX-License-Identifier: MIT
#pragma once

#include <trialfit/job/complaint.hpp>
#include <trialfit/job/job.hpp>

namespace trialfit::job {

/// Whether a job, perhaps made in memory, is one that can be answered: at least one part; every
/// index within its list; every figure finite; limits the right way round; one zero a part; seats
/// that lead to one part without any. Empty where it is; else one complaint for each fault, without
/// a place where the job has none. The answers call it; its time is in proportion to the job.
[[nodiscard]] Complaints validate(const Job& job);
/// The same of its gauges and its timing alone, which need no parts.
[[nodiscard]] Complaints validate_timing(const Job& job);

}  // namespace trialfit::job
