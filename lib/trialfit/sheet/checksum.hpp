// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <string_view>

namespace trialfit::sheet {

/// SHA-256 (FIPS 180-4) of `text`, 64 lower-case hexadecimal digits, as `sha256sum` prints it.
[[nodiscard]] std::string sha256(std::string_view text);

}  // namespace trialfit::sheet
