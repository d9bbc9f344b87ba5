// SPDX-License-Identifier: MIT
#pragma once

namespace trialfit::testing {

/// Whether the tests run under the sanitizers, which look for wrong use of memory, find it in the
/// first few of many jobs alike, and take tens of times as long for each.
#ifdef TRIALFIT_SANITIZED
inline constexpr bool kSanitized = true;
#else
inline constexpr bool kSanitized = false;
#endif

/// How many of `all` made-up jobs to try: all; a tenth under the sanitizers.
[[nodiscard]] constexpr unsigned fewer(unsigned all) {
    return kSanitized ? all / 10 : all;
}

/// How far to step along a list: to the next; by `step` under the sanitizers.
[[nodiscard]] constexpr unsigned stride(unsigned step) {
    return kSanitized ? step : 1;
}

}  // namespace trialfit::testing
