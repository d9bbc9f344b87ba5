// SPDX-License-Identifier: MIT
#pragma once

#include <string>

// What lies beside the program where it is installed.
namespace trialfit::cli {

/// A job file that is begun, with a first line by which editors find the schema of job files, where
/// that is installed beside the program; else `text` as it is.
[[nodiscard]] std::string for_editors(const std::string& text);

}  // namespace trialfit::cli
