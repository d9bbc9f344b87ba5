// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <trialfit/job/job.hpp>
#include <trialfit/plan/demand/demands.hpp>

// Finished sizes as they will be read and recorded, rather than as the lathe makes them.
namespace trialfit::plan {

/// The gauge that will read what the work makes: the one that the job names (`read_by`), else the
/// one that read the size before; nothing where neither is known.
[[nodiscard]] std::optional<job::GaugeId> gauge_for(const job::Job& job, const Work& work);

/// The demands with every new length judged as a reading: with the greater of what the lathe holds
/// and the half-width of its gauge; and with `keep` and `until` held by that.
[[nodiscard]] Demands as_read(const job::Job& job, Demands demands);

}  // namespace trialfit::plan
