// SPDX-License-Identifier: MIT
#pragma once

#include <string_view>

namespace trialfit::reading {

/// Whether `text` is a day of the calendar written as in ISO 8601, "2026-11-25".
[[nodiscard]] bool is_date(std::string_view text);

}  // namespace trialfit::reading
