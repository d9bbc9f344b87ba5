// SPDX-License-Identifier: MIT
#pragma once

#include <trialfit/trade/thread/limits.hpp>

namespace trialfit::trade {

/// The unified half of thread_limits(), which see: `form` unified, `of.unified` 1 to 3.
[[nodiscard]] Result<ThreadLimits> unified_limits(const ThreadForm& form, const ThreadClass& of);

}  // namespace trialfit::trade
