// SPDX-License-Identifier: MIT
#pragma once

#include <string_view>
#include <trialfit/quantity/characters.hpp>

namespace trialfit::reading {

/// What some editors put before the first character of a file in UTF-8.
inline constexpr std::string_view kByteOrderMark = "\xEF\xBB\xBF";

using quantity::blank;
using quantity::digit;
using quantity::letter;

}  // namespace trialfit::reading
