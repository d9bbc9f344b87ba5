// SPDX-License-Identifier: MIT
#pragma once

#include <trialfit/trade/thread/limits.hpp>

namespace trialfit::trade {

/// The unified half of thread_limits(), which see: `form` unified, `of.unified` 1 to 3. A
/// reason outside 0.06 to 6 inches and beyond 80 threads per inch.
[[nodiscard]] Result<ThreadLimits> unified_limits(const ThreadForm& form, const ThreadClass& of);

}  // namespace trialfit::trade
