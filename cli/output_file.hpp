// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <string_view>

namespace trialfit::cli {

/// Writes `text` to the file `name`, whole or not at all: it is written beside it first and then
/// takes its name. A file that is there already stays as it is unless `overwrite`. Returns kHolds;
/// kWrong where the name will not do, kFault where the writing fails, with the reason on standard
/// error.
[[nodiscard]] int write_whole(const std::string& name, std::string_view text, bool overwrite);

}  // namespace trialfit::cli
