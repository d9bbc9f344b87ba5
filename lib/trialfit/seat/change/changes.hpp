// SPDX-License-Identifier: MIT
#pragma once

#include <trialfit/job/job.hpp>

// Copies of a job in which something has moved, so that the stack itself says what that does to
// every gap, engagement and overlap.
namespace trialfit::seat {

/// The job with part `hub` sitting `draw_up` (file's unit, > 0) further inboard than its sizes say,
/// by each way in which it sits.
[[nodiscard]] job::Job drawn_up(const job::Job& job, job::PartId hub, double draw_up);

/// The job with the part's cut taken to its `keep`. The metal that stays does not move within the
/// part; a cone whose gauge plane is the cut face has its diameter at the new place, and is shorter
/// where the cut comes from its inboard end.
/// `size_now`: nominal length between the cut's two faces.
[[nodiscard]] job::Job cut_to_keep(const job::Job& job, job::PartId part, const job::Cut& cut,
                                   double size_now);

}  // namespace trialfit::seat
