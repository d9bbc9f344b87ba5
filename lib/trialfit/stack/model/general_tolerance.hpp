// SPDX-License-Identifier: MIT
#pragma once

#include <trialfit/job/job.hpp>

namespace trialfit::stack {

/// The ISO 2768-1 class that bare sizes of a part are under; 0 for none.
[[nodiscard]] char general_tolerance_of(const job::Job& job, const job::Part& part);

/// A diameter of a part as given or, where it is bare, with the limits of the general tolerance
/// (ISO 2768-1:1989, table 1) once a gap hangs on it; as given where there is no class.
[[nodiscard]] job::Given under_general_tolerance(const job::Job& job, const job::Part& part,
                                                 const job::Given& given, bool bare);

}  // namespace trialfit::stack
