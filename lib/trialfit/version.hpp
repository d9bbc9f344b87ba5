// SPDX-License-Identifier: MIT
#pragma once

namespace trialfit {

/// The one place where the version is written; CMake reads it from here.
inline constexpr const char* kVersion = "0.2.0";

}  // namespace trialfit
