// SPDX-License-Identifier: MIT
#pragma once

#include <optional>
#include <string>
#include <string_view>

namespace trialfit::trade {

/// `text` without white space at either end.
[[nodiscard]] std::string_view trimmed(std::string_view text);

/// `text` with its letters a to z as capitals.
[[nodiscard]] std::string upper_case(std::string text);

/// The whole of `text` as a decimal number with an optional sign (`12.5`, `-0.2`, `.375`), without
/// exponent; nothing where it is anything else.
[[nodiscard]] std::optional<double> decimal(std::string_view text);

/// As decimal(); also a fraction and a mixed number: `3/8`, `1 1/2`, `1-1/2`.
[[nodiscard]] std::optional<double> decimal_or_fraction(std::string_view text);

/// `value` to at most 12 figures, without trailing zeros: `1.25`, `10`.
[[nodiscard]] std::string shown(double value);

}  // namespace trialfit::trade
