// SPDX-License-Identifier: MIT
#pragma once

#include <string_view>
#include <vector>

namespace trialfit::cli {

struct Schema {
    std::string_view name;  ///< "job", "check"
    std::string_view text;  ///< the file of schemas/, whole
};

/// The files of schemas/, that of the job first. CMake makes their source.
[[nodiscard]] const std::vector<Schema>& schemas();

}  // namespace trialfit::cli
