// SPDX-License-Identifier: MIT
#pragma once

#include <trialfit/job/job.hpp>
#include <trialfit/stack/messages.hpp>
#include <vector>

// Whether what is screwed down can come home. A nut that runs out of thread before it reaches its
// washer clamps nothing, whatever its engagement.
namespace trialfit::stack {

/// One check for each nut, or bolt, that sits face on face and whose thread's partner is known: by
/// an engagement that the job asks for, or as the only other thread of its form. Each asks for free
/// thread (> 0) where the seat's faces meet. Automatic: the job does not list them.
[[nodiscard]] std::vector<job::Check> clamp_checks(const job::Job& job);

/// The threads of parts that sit face on face of which it is not known what they screw onto.
[[nodiscard]] std::vector<PartnerNotKnown> clamps_not_assessed(const job::Job& job);

}  // namespace trialfit::stack
