// SPDX-License-Identifier: MIT
#pragma once

#include <cstddef>
#include <string>
#include <string_view>

namespace trialfit::paper {

/// How a text for people is set. Colour only repeats what the words say; without it nothing is
/// lost.
struct Style {
    bool colour = false;
    /// The answer, its table and nothing else.
    bool brief = false;
    /// Every row of a long table, not only the first of them.
    bool all_rows = false;
    /// Columns to stay within.
    std::size_t width = 80;
    /// The signs of our own words in ASCII: +/-, >=, <=, u for micro.
    bool ascii = false;
};

enum class Ink { plain, strong, good, warn, bad, faint };

/// `text` with those signs in ASCII where the style asks for it; else, and all else, as it is.
[[nodiscard]] std::string signs(const Style& style, std::string text);

/// `text` in `ink` by terminal escapes where the style has colour, else `text` as it is.
[[nodiscard]] std::string painted(const Style& style, Ink ink, std::string_view text);

}  // namespace trialfit::paper
