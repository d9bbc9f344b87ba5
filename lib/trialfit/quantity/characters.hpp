// SPDX-License-Identifier: MIT
#pragma once

#include <algorithm>
#include <string>
#include <string_view>

// Kinds of character and figures, whatever the machine's or the host program's language settings.
namespace trialfit::quantity {

/// 0 to 9.
[[nodiscard]] constexpr bool digit(char c) {
    return c >= '0' && c <= '9';
}

/// A to Z.
[[nodiscard]] constexpr bool capital(char c) {
    return c >= 'A' && c <= 'Z';
}

/// A letter of ASCII, of either case.
[[nodiscard]] constexpr bool letter(char c) {
    return (c >= 'a' && c <= 'z') || capital(c);
}

/// A space, a tab or a line end.
[[nodiscard]] constexpr bool blank(char c) {
    return c == ' ' || c == '\t' || c == '\n' || c == '\r';
}

/// Letters of ASCII as small ones, and as capitals; all else as it is.
[[nodiscard]] constexpr char small(char c) {
    return capital(c) ? static_cast<char>(c - 'A' + 'a') : c;
}
[[nodiscard]] constexpr char large(char c) {
    return letter(c) && !capital(c) ? static_cast<char>(c - 'a' + 'A') : c;
}
[[nodiscard]] inline std::string small(std::string_view text) {
    std::string out(text);
    std::transform(out.begin(), out.end(), out.begin(), [](char c) { return small(c); });
    return out;
}

/// `value` in at most six digits, with a point: 0.5, 12.25, 1e-07.
[[nodiscard]] std::string six_digits(double value);

}  // namespace trialfit::quantity
