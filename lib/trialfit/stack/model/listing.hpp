// SPDX-License-Identifier: MIT
#pragma once

#include <fmt/format.h>

#include <algorithm>
#include <cstddef>
#include <string>
#include <vector>

namespace trialfit::stack {

/// The names, `most` of them at most: "a, b, c and 4 more".
[[nodiscard]] inline std::string some_of(const std::vector<std::string>& names, std::size_t most) {
    std::string all;
    for (std::size_t i = 0; i < std::min(names.size(), most); ++i)
        all += (i == 0 ? "" : ", ") + names[i];
    if (names.size() > most) all += fmt::format(" and {} more", names.size() - most);
    return all;
}

}  // namespace trialfit::stack
