// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <string_view>
#include <trialfit/job/complaint.hpp>

namespace trialfit::cli {

/// What stands against the job in `text`, as `check` would find it with the record in force and
/// the readings bound: faults of the file, sizes or readings that contradict each other. Empty
/// where there is an answer. To be asked before a changed job file is written. The complaints'
/// places are in `text`; `name` is the file's.
[[nodiscard]] job::Complaints against(std::string_view text, const std::string& name);

}  // namespace trialfit::cli
