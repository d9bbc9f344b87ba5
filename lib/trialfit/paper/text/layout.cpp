// SPDX-License-Identifier: MIT
#include <algorithm>
#include <array>
#include <trialfit/paper/text/layout.hpp>

namespace trialfit::paper {

namespace {

constexpr char32_t kReplacement = 0xFFFD;

struct CharacterRange {
    char32_t first;
    char32_t last;
};

template <std::size_t n>
bool in_any(const std::array<CharacterRange, n>& blocks, char32_t code) {
    return std::ranges::any_of(
        blocks, [code](CharacterRange b) { return b.first <= code && code <= b.last; });
}

// The blocks of Unicode's EastAsianWidth.txt that are wholly or nearly wholly W or F, and the
// combining blocks: enough to keep a caret under its character.
constexpr std::array kWide{
    CharacterRange{0x1100, 0x115F},   CharacterRange{0x2E80, 0xA4CF},
    CharacterRange{0xAC00, 0xD7A3},   CharacterRange{0xF900, 0xFAFF},
    CharacterRange{0xFE30, 0xFE6F},   CharacterRange{0xFF00, 0xFF60},
    CharacterRange{0xFFE0, 0xFFE6},   CharacterRange{0x1F300, 0x1F64F},
    CharacterRange{0x1F680, 0x1F6FF}, CharacterRange{0x1F900, 0x1F9FF},
    CharacterRange{0x20000, 0x3FFFD},
};
constexpr std::array kCombining{
    CharacterRange{0x0300, 0x036F}, CharacterRange{0x1AB0, 0x1AFF}, CharacterRange{0x1DC0, 0x1DFF},
    CharacterRange{0x20D0, 0x20FF}, CharacterRange{0xFE00, 0xFE0F}, CharacterRange{0xFE20, 0xFE2F},
};
// C0, DEL and C1 controls; zero-width and bidirectional marks; line and paragraph separators;
// byte order mark.
constexpr std::array kHarmful{
    CharacterRange{0x0000, 0x001F}, CharacterRange{0x007F, 0x009F}, CharacterRange{0x00AD, 0x00AD},
    CharacterRange{0x061C, 0x061C}, CharacterRange{0x200B, 0x200F}, CharacterRange{0x2028, 0x202E},
    CharacterRange{0x2060, 0x2069}, CharacterRange{0xFEFF, 0xFEFF}, CharacterRange{0xFFF9, 0xFFFB},
};

std::size_t columns_of(char32_t code) {
    if (code < 0x300) return 1;
    if (in_any(kCombining, code)) return 0;
    return in_any(kWide, code) ? 2 : 1;
}

unsigned byte_at(std::string_view text, std::size_t i) {
    return static_cast<unsigned char>(text[i]);
}

// Bytes that a UTF-8 sequence with this lead byte has; 0 for a byte that leads none.
std::size_t length_by_lead(unsigned lead) {
    if (lead < 0x80) return 1;
    if (lead >= 0xC2 && lead < 0xE0) return 2;
    if (lead >= 0xE0 && lead < 0xF0) return 3;
    if (lead >= 0xF0 && lead < 0xF5) return 4;
    return 0;
}

// What a sequence of that length may stand for: nothing that a shorter one does, no half of a pair
// of UTF-16, nothing beyond Unicode.
bool may_be(char32_t code, std::size_t length) {
    constexpr std::array<char32_t, 5> kLeast{0, 0, 0x80, 0x800, 0x10000};
    return code >= kLeast.at(length) && code <= 0x10FFFF && (code < 0xD800 || code > 0xDFFF);
}

Glyph glyph_at(std::string_view text, std::size_t i) {
    const Glyph broken{.bytes = text.substr(i, 1), .code = kReplacement, .columns = 1};
    const unsigned lead = byte_at(text, i);
    const std::size_t length = length_by_lead(lead);
    if (length == 0 || i + length > text.size()) return broken;
    char32_t code = length == 1 ? lead : lead & (0xFFU >> (length + 1));
    for (std::size_t k = 1; k < length; ++k) {
        const unsigned next = byte_at(text, i + k);
        if ((next & 0xC0U) != 0x80U) return broken;
        code = (code << 6U) | (next & 0x3FU);
    }
    if (!may_be(code, length)) return broken;
    return {.bytes = text.substr(i, length), .code = code, .columns = columns_of(code)};
}

// Most text is plain ASCII: one byte, one column, and large answers have much of it.
bool plain(std::string_view text) {
    return std::ranges::all_of(text, [](char c) { return c >= ' ' && c <= '~'; });
}

std::vector<std::string_view> split_words(std::string_view text) {
    std::vector<std::string_view> out;
    for (std::size_t i = 0; i < text.size();) {
        const std::size_t end = std::min(text.find(' ', i), text.size());
        if (end > i) out.push_back(text.substr(i, end - i));
        i = end + 1;
    }
    return out;
}

}  // namespace

std::vector<Glyph> glyphs(std::string_view text) {
    std::vector<Glyph> out;
    out.reserve(text.size());
    for (std::size_t i = 0; i < text.size(); i += out.back().bytes.size())
        out.push_back(glyph_at(text, i));
    return out;
}

std::size_t columns(std::string_view text) {
    if (plain(text)) return text.size();
    std::size_t sum = 0;
    for (const Glyph& glyph : glyphs(text))
        sum += glyph.columns;
    return sum;
}

std::string harmless(std::string_view text) {
    if (plain(text)) return std::string(text);
    std::string out;
    out.reserve(text.size());
    for (const Glyph& glyph : glyphs(text)) {
        if (glyph.code == '\t' || glyph.code == '\n' || glyph.code == '\r')
            out += ' ';
        else if (glyph.code == kReplacement || in_any(kHarmful, glyph.code))
            out += "\xEF\xBF\xBD";
        else
            out += glyph.bytes;
    }
    return out;
}

std::string shortened(std::string_view text, std::size_t width) {
    if (columns(text) <= width) return std::string(text);
    std::vector<Glyph> all = glyphs(text);
    constexpr std::string_view kLeftOut = "...";
    if (width <= kLeftOut.size()) return std::string(kLeftOut.substr(0, width));
    const std::size_t room = width - kLeftOut.size();
    const std::size_t room_at_front = room - room / 2;
    std::string front;
    std::size_t used = 0;
    for (const Glyph& glyph : all) {
        if (used + glyph.columns > room_at_front) break;
        front += glyph.bytes;
        used += glyph.columns;
    }
    std::string back;
    used = 0;
    std::ranges::reverse(all);
    for (const Glyph& glyph : all) {
        if (used + glyph.columns > room / 2) break;
        back.insert(0, glyph.bytes);
        used += glyph.columns;
    }
    return front + std::string(kLeftOut) + back;
}

std::string left(std::string_view text, std::size_t width) {
    const std::size_t taken = columns(text);
    std::string out(text);
    if (taken < width) out.append(width - taken, ' ');
    return out;
}

std::string right(std::string_view text, std::size_t width) {
    const std::size_t taken = columns(text);
    std::string out(taken < width ? width - taken : 0, ' ');
    return out += text;
}

std::vector<std::string> wrapped(std::string_view text, std::size_t width) {
    std::vector<std::string> lines(1);
    std::size_t used = 0;
    for (const std::string_view each : split_words(text)) {
        const std::string word = shortened(each, width);
        const std::size_t taken = columns(word);
        if (used > 0 && used + 1 + taken > width) {
            lines.emplace_back();
            used = 0;
        }
        if (used > 0) {
            lines.back() += ' ';
            ++used;
        }
        lines.back() += word;
        used += taken;
    }
    return lines;
}

std::string paragraph(std::string_view text, std::size_t width, std::string_view first) {
    const std::size_t indent = columns(first);
    std::string out;
    for (const std::string& line : wrapped(text, width > indent ? width - indent : 1)) {
        out += out.empty() ? std::string(first) : std::string(indent, ' ');
        out += line;
        out += '\n';
    }
    return out;
}

}  // namespace trialfit::paper
