// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>
#include <system_error>
#include <trialfit/quantity/units.hpp>
#include <trialfit/reading/yaml/characters.hpp>
#include <trialfit/reading/yaml/source.hpp>
#include <trialfit/reading/yaml/tokens.hpp>
#include <utility>

namespace trialfit::reading {

namespace {

struct Spelling {
    std::string_view written;
    Token::Kind kind;
};

// The longer before the shorter that begins alike.
constexpr std::array kSymbols{Spelling{"\u00b1", Token::Kind::plus_minus},
                              Spelling{"+/-", Token::Kind::plus_minus},
                              Spelling{"+-", Token::Kind::plus_minus},
                              Spelling{"..", Token::Kind::range},
                              Spelling{"[", Token::Kind::open},
                              Spelling{"]", Token::Kind::close},
                              Spelling{",", Token::Kind::comma},
                              Spelling{"/", Token::Kind::slash}};

// Letters beyond ASCII that begin a unit: micro sign and Greek mu.
constexpr std::array<std::string_view, 2> kMicro{"\u00b5", "\u03bc"};

struct Misprint {
    std::string_view written;
    std::string_view fault;
    std::string_view mend;
};

// What word processors and web pages put in place of what is on the keyboard.
constexpr std::array kMisprints{
    Misprint{"\u2212", "'\u2212' is a minus sign from a word processor", "write '-'"},
    Misprint{"\u2013", "'\u2013' is a dash, not a minus", "write '-', or '..' between two limits"},
    Misprint{"\u2014", "'\u2014' is a dash, not a minus", "write '-', or '..' between two limits"},
    Misprint{"\u2026", "'\u2026' is one character", "write two dots: '..'"},
    Misprint{"\u00a0", "a space that is not an ordinary one", "delete it and type a space"},
    Misprint{"\u202f", "a space that is not an ordinary one", "delete it and type a space"},
    Misprint{"\u2009", "a space that is not an ordinary one", "delete it and type a space"},
    Misprint{"\"", "'\"' is not a unit here", "write 'in'"},
    Misprint{"'", "''' is not a unit here", "write feet in inches, as in '24 in'"}};

class Lexer {
public:
    explicit Lexer(std::string_view text) : text_(text) {}

    Tokens all() {
        while (!fault_) {
            skip_blanks();
            if (at_ == text_.size()) break;
            const bool found = number() || symbol() || word();
            if (!found && !fault_) unknown();
        }
        tokens_.push_back({.kind = Token::Kind::end, .at = text_.size(), .text = {}});
        return {std::move(tokens_), std::move(fault_)};
    }

private:
    [[nodiscard]] char look(std::size_t at) const { return at < text_.size() ? text_[at] : '\0'; }
    void skip_blanks() {
        while (blank(look(at_)))
            ++at_;
    }
    [[nodiscard]] std::size_t digits_end(std::size_t from) const {
        while (digit(look(from)))
            ++from;
        return from;
    }
    [[nodiscard]] double value(std::size_t from, std::size_t to) const {
        return number_of(text_.substr(from, to - from)).value_or(NAN);
    }

    // End of a decimal number without sign that begins at `from`; `from` where there is none.
    [[nodiscard]] std::size_t decimal_end(std::size_t from) const {
        std::size_t end = digits_end(from);
        const bool point = look(end) == '.' && look(end + 1) != '.';
        if (point && (end > from || digit(look(end + 1)))) end = digits_end(end + 1);
        if (end == from) return from;
        if (look(end) != 'e' && look(end) != 'E') return end;
        const bool sign = look(end + 1) == '-' || look(end + 1) == '+';
        const std::size_t exponent = end + (sign ? 2 : 1);
        return digit(look(exponent)) ? digits_end(exponent) : end;
    }

    // `3/8`, or the rest of `1 1/2` and `1-1/2`: end of the fraction that begins at `from`.
    [[nodiscard]] std::size_t fraction_end(std::size_t from) const {
        const std::size_t slash = digits_end(from);
        if (slash == from || look(slash) != '/' || !digit(look(slash + 1))) return from;
        return digits_end(slash + 1);
    }
    [[nodiscard]] double fraction(std::size_t from, std::size_t end) const {
        const std::size_t slash = text_.find('/', from);
        return value(from, slash) / value(slash + 1, end);
    }

    // Where the fraction of a mixed number may begin: after a dash or after blanks.
    [[nodiscard]] std::size_t after_joint(std::size_t end) const {
        if (look(end) == '-') return end + 1;
        while (blank(look(end)))
            ++end;
        return end;
    }

    bool number() {
        const std::size_t begin = at_;
        std::size_t from = at_;
        const char sign = look(from) == '+' || look(from) == '-' ? look(from) : '\0';
        if (sign != '\0') ++from;
        while (sign != '\0' && blank(look(from)))
            ++from;
        std::size_t end = decimal_end(from);
        if (end == from) return false;
        if (not_decimal(from)) return false;
        double magnitude = NAN;
        if (const std::size_t simple = fraction_end(from); simple > from) {
            end = simple;
            magnitude = fraction(from, end);
        } else {
            magnitude = value(from, end);
            const std::size_t joint = after_joint(end);
            const bool whole = digits_end(from) == end && joint > end;
            if (const std::size_t mixed = fraction_end(joint); whole && mixed > joint) {
                magnitude += fraction(joint, mixed);
                end = mixed;
            }
        }
        push(Token::Kind::number, begin, end);
        tokens_.back().value = sign == '-' ? -magnitude : magnitude;
        tokens_.back().sign = sign;
        return true;
    }

    // `0x1F`, `0b11`, `0o17`: other software's numbers, which would else read as a tolerance class.
    bool not_decimal(std::size_t from) {
        constexpr std::string_view kBases = "xXoObB";
        if (look(from) != '0' || kBases.find(look(from + 1)) == std::string_view::npos)
            return false;
        fault_ = TextFault{from, fmt::format("{} is not a decimal number", quoted(text_)),
                           "write it as '12.5'"};
        return true;
    }

    bool symbol() {
        const auto* const found = std::ranges::find_if(kSymbols, [&](const Spelling& symbol) {
            return text_.substr(at_).starts_with(symbol.written);
        });
        if (found == kSymbols.end()) return false;
        push(found->kind, at_, at_ + found->written.size());
        return true;
    }

    bool word() {
        std::size_t end = at_;
        for (const std::string_view micro : kMicro)
            if (text_.substr(at_).starts_with(micro)) end += micro.size();
        if (end == at_ && !letter(look(end))) return false;
        while (letter(look(end)) || digit(look(end)) || look(end) == '_' ||
               (look(end) == '-' && !quantity::unit_named(text_.substr(at_, end - at_))))
            ++end;
        push(Token::Kind::word, at_, end);
        return true;
    }

    void unknown() {
        for (const std::string_view word : {".nan", ".NaN", ".NAN", ".inf", ".Inf", ".INF"}) {
            if (!text_.substr(at_).starts_with(word)) continue;
            fault_ =
                TextFault{at_, fmt::format("{} is not a length", quoted(text_)), "write a number"};
            return;
        }
        for (const Misprint& slip : kMisprints) {
            if (!text_.substr(at_).starts_with(slip.written)) continue;
            fault_ = TextFault{at_, std::string(slip.fault), std::string(slip.mend)};
            return;
        }
        std::size_t end = at_ + 1;
        while (end < text_.size() && (static_cast<unsigned char>(text_[end]) & 0xC0U) == 0x80U)
            ++end;
        fault_ =
            TextFault{at_, fmt::format("'{}' has no place in a size", text_.substr(at_, end - at_)),
                      "write it like '12.5 \u00b10.05'"};
    }

    void push(Token::Kind kind, std::size_t from, std::size_t to) {
        tokens_.push_back({.kind = kind, .at = from, .text = text_.substr(from, to - from)});
        at_ = to;
    }

    std::string_view text_;
    std::size_t at_ = 0;
    std::vector<Token> tokens_;
    std::optional<TextFault> fault_;
};

}  // namespace

std::string_view trimmed(std::string_view text) {
    while (!text.empty() && blank(text.front()))
        text.remove_prefix(1);
    while (!text.empty() && blank(text.back()))
        text.remove_suffix(1);
    return text;
}

std::optional<double> number_of(std::string_view text) {
    // from_chars takes no leading plus, but words and hexadecimal digits.
    if (text.starts_with('+')) text.remove_prefix(1);
    const std::string_view unsigned_text = text.starts_with('-') ? text.substr(1) : text;
    if (unsigned_text.empty() || !(digit(unsigned_text.front()) || unsigned_text.front() == '.'))
        return std::nullopt;
    double value = 0.0;
    const char* const end = text.data() + text.size();
    const auto [stopped, error] = std::from_chars(text.data(), end, value);
    if (error != std::errc() || stopped != end || !std::isfinite(value)) return std::nullopt;
    return value;
}

Tokens tokens_of(std::string_view text) {
    return Lexer(text).all();
}

}  // namespace trialfit::reading
