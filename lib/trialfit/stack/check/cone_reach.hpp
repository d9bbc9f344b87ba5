// SPDX-License-Identifier: MIT
#pragma once

#include <trialfit/job/job.hpp>
#include <trialfit/stack/messages.hpp>
#include <vector>

namespace trialfit::stack {

/// The hubs whose cones are so wide or so narrow that they and their shafts' cones have no length
/// in common where the diameters are alike: at nominal, or at the bad limits of the diameters only
/// (`surely` then false). Hubs whose taper differs, and those of which a diameter is unmeasured,
/// are left out.
[[nodiscard]] std::vector<ConesMiss> cones_that_miss(const job::Job& job);

}  // namespace trialfit::stack
