// SPDX-License-Identifier: MIT
#pragma once

#include <trialfit/plan/answers.hpp>
#include <trialfit/plan/job/job_plan.hpp>
#include <trialfit/stack/model/model.hpp>

namespace trialfit::plan {

/// Whether every check and every gap holds. What is not judged, for want of a strength or of how a
/// part grows, stays so whatever is cut.
[[nodiscard]] bool fits(const stack::CheckAnswer& answer);

/// Says of each cut and skim of a plan that holds how far its size may have gone as things stand
/// (`may_be`), where that is past what the work is to leave: the metal that is to come off may be
/// gone already, and does not grow. `needs_metal`: with the size anywhere from there to the
/// finish, not everything holds; by odds, that is not looked into and so taken to be.
void tell_as_it_is(const stack::Model& before, const JobOptions& options, PlanMade& plan);

}  // namespace trialfit::plan
