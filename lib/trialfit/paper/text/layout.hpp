// SPDX-License-Identifier: MIT
#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

// Setting UTF-8 text in columns. Widths are terminal columns: most characters take one, combining
// marks none, East Asian wide characters and emoji two.
namespace trialfit::paper {

/// One character of a text: its bytes (a view into the text) and the columns it takes.
struct Glyph {
    std::string_view bytes{};
    char32_t code = 0;
    std::size_t columns = 1;
};

/// The characters of `text`; a byte that is no UTF-8 comes out as U+FFFD with its own byte.
[[nodiscard]] std::vector<Glyph> glyphs(std::string_view text);

/// Columns that `text` takes on a terminal.
[[nodiscard]] std::size_t columns(std::string_view text);

/// `text` with everything that could move the cursor, colour the terminal, reorder or hide letters
/// (control characters, bidirectional marks, bytes that are no UTF-8) replaced: tabs and line ends
/// by a space, the rest by U+FFFD. One character stays one character.
[[nodiscard]] std::string harmless(std::string_view text);

/// `text`, or where it is wider than `width` its two ends with "..." between them.
[[nodiscard]] std::string shortened(std::string_view text, std::size_t width);

/// `text` padded with spaces to `width`; unchanged where it is wider.
[[nodiscard]] std::string left(std::string_view text, std::size_t width);
[[nodiscard]] std::string right(std::string_view text, std::size_t width);

/// `text` broken at spaces into lines of at most `width` columns; a word wider than a line is
/// shortened. Never empty: at least one (empty) line.
[[nodiscard]] std::vector<std::string> wrapped(std::string_view text, std::size_t width);

/// `text` wrapped to `width` columns, the first line led in by `first`, the others by as many
/// spaces, each line ended.
[[nodiscard]] std::string paragraph(std::string_view text, std::size_t width,
                                    std::string_view first = "");

}  // namespace trialfit::paper
