// SPDX-License-Identifier: MIT
#pragma once

#include <trialfit/job/job.hpp>
#include <trialfit/stack/change/changes.hpp>

namespace trialfit::draw {

/// The cuts and skims of the job's record that are planned and not done: those of the last planned
/// entry in force that no later entry makes. Empty where the job has no planned work in force.
[[nodiscard]] stack::Changes planned_work(const job::Job& job);

}  // namespace trialfit::draw
