// SPDX-License-Identifier: MIT
#pragma once

#include <trialfit/job/complaint.hpp>
#include <trialfit/job/job.hpp>

namespace trialfit::job {

/// One complaint for each gauge that a cut or a skim is read by, and each ring, cone or part that
/// the record names, which the job does not have. A piece of validate().
[[nodiscard]] Complaints lost_references(const Job& job);

}  // namespace trialfit::job
