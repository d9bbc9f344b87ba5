// SPDX-License-Identifier: MIT
#pragma once

namespace trialfit::testing {

/// How many of `all` made-up jobs to try: all; a tenth under the sanitizers, which look for wrong
/// use of memory, find it in the first few, and take tens of times as long for each.
[[nodiscard]] constexpr unsigned fewer(unsigned all) {
#ifdef TRIALFIT_SANITIZED
    return all / 10;
#else
    return all;
#endif
}

}  // namespace trialfit::testing
