// SPDX-License-Identifier: MIT
#pragma once

#include <cstddef>

namespace trialfit::stack {

/// A job's index (an int, -1 where there is none) as a vector's; `i` must not be negative.
[[nodiscard]] constexpr std::size_t at(int i) {
    return static_cast<std::size_t>(i);
}

/// The same of an index as Eigen counts them.
[[nodiscard]] constexpr std::size_t at(std::ptrdiff_t i) {
    return static_cast<std::size_t>(i);
}

}  // namespace trialfit::stack
