// SPDX-License-Identifier: MIT
#pragma once

#include <trialfit/job/job.hpp>

namespace trialfit::stack {

/// A diameter as given or, where it is bare, with the limits of the job's general tolerance (ISO
/// 2768-1:1989, table 1) once a gap hangs on it; as given where the job names no class.
[[nodiscard]] job::Given under_general_tolerance(const job::Job& job, const job::Given& given,
                                                 bool bare);

}  // namespace trialfit::stack
