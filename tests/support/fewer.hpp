// SPDX-License-Identifier: MIT
#pragma once

namespace trialfit::testing {

/// How many of `all` made-up jobs to try: all; a quarter under the sanitizers, which look for wrong
/// use of memory, find it in the first few, and take ten times as long for each.
[[nodiscard]] constexpr unsigned fewer(unsigned all) {
#ifdef __SANITIZE_ADDRESS__
    return all / 4;
#else
    return all;
#endif
}

}  // namespace trialfit::testing
