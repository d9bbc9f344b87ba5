// SPDX-License-Identifier: MIT
#pragma once

#include <string_view>

// Kinds of character, whatever the machine's language settings.
namespace trialfit::reading {

/// What some editors put before the first character of a file in UTF-8.
inline constexpr std::string_view kByteOrderMark = "\xEF\xBB\xBF";

[[nodiscard]] constexpr bool digit(char c) {
    return c >= '0' && c <= '9';
}

[[nodiscard]] constexpr bool letter(char c) {
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z');
}

[[nodiscard]] constexpr bool blank(char c) {
    return c == ' ' || c == '\t' || c == '\n' || c == '\r';
}

}  // namespace trialfit::reading
