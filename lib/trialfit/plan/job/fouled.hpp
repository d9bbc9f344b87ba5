// SPDX-License-Identifier: MIT
#pragma once

#include <optional>
#include <trialfit/job/job.hpp>
#include <trialfit/stack/answers.hpp>

namespace trialfit::plan {

/// A clearance of a job with its work done, as it is asked of the job before: between the same two
/// rings' ends. None where the job has no such rings.
[[nodiscard]] std::optional<stack::Clearance> as_asked(const job::Job& before,
                                                       const stack::Clearance& pair);

}  // namespace trialfit::plan
