// SPDX-License-Identifier: MIT
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace trialfit::reading {

/// A fault in a written value: where in it, what is wrong, the mend.
struct TextFault {
    std::size_t at = 0;
    std::string fault;
    std::string mend;
};

/// A piece of a written size.
struct Token {
    enum class Kind { number, word, plus_minus, range, open, close, comma, slash, end };
    Kind kind = Kind::end;
    /// Offset in the text, and the piece as written.
    std::size_t at = 0;
    std::string_view text;
    /// Of a number: its value, sign included, and the sign if one is written.
    double value = 0.0;
    char sign = '\0';
};

/// A text in pieces, closed by one of kind `end`; or the first character that has no place in a
/// size. Numbers: `12.5`, `.5`, `-3`, `+0.1`, `2e-3`, `3/8`, `1 1/2`, `1-1/2`. Independent of the
/// locale.
struct Tokens {
    std::vector<Token> tokens;
    std::optional<TextFault> fault;
};
[[nodiscard]] Tokens tokens_of(std::string_view text);

/// The whole of `text` as one decimal number, exponent and sign allowed; nothing where it is
/// anything else, or no finite double.
[[nodiscard]] std::optional<double> number_of(std::string_view text);

/// `text` without blanks at either end.
[[nodiscard]] std::string_view trimmed(std::string_view text);

}  // namespace trialfit::reading
