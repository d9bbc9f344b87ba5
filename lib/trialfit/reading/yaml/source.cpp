// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <algorithm>
#include <trialfit/reading/read.hpp>
#include <trialfit/reading/yaml/characters.hpp>
#include <trialfit/reading/yaml/source.hpp>

namespace trialfit::reading {

namespace {

constexpr std::size_t kStride = 64;
constexpr std::size_t kLongestQuote = 60;

unsigned byte_at(std::string_view text, std::size_t at) {
    return at < text.size() ? static_cast<unsigned char>(text[at]) : 0U;
}

bool continues(unsigned byte) {
    return (byte & 0xC0U) == 0x80U;
}

// Length of the well-formed UTF-8 sequence at `at` (Unicode Standard, table 3-7), 0 where there is
// none.
std::size_t sequence_length(std::string_view text, std::size_t at) {
    const unsigned lead = byte_at(text, at);
    const unsigned second = byte_at(text, at + 1);
    if (lead < 0x80U) return 1;
    if (lead < 0xC2U || lead > 0xF4U || !continues(second)) return 0;
    if (lead < 0xE0U) return 2;
    if (!continues(byte_at(text, at + 2))) return 0;
    if (lead < 0xF0U) {
        const bool overlong = lead == 0xE0U && second < 0xA0U;
        const bool surrogate = lead == 0xEDU && second > 0x9FU;
        return overlong || surrogate ? 0 : 3;
    }
    const bool out_of_range =
        (lead == 0xF0U && second < 0x90U) || (lead == 0xF4U && second > 0x8FU);
    return out_of_range || !continues(byte_at(text, at + 3)) ? 0 : 4;
}

bool typed(unsigned byte) {
    return (byte >= 0x20U && byte != 0x7FU) || byte == '\n' || byte == '\r' || byte == '\t';
}

job::Complaint refused(std::string fault, std::string mend, job::Place at = {}) {
    return {.severity = job::Severity::error,
            .at = at,
            .fault = std::move(fault),
            .mend = std::move(mend)};
}

std::optional<job::Complaint> refuse_encoding(std::string_view text) {
    const std::string_view start = text.substr(0, 2);
    if (start == "\xFF\xFE" || start == "\xFE\xFF")
        return refused("the file is written in UTF-16", "save it as UTF-8 in the editor");
    return std::nullopt;
}

}  // namespace

std::optional<job::Complaint> refuse_text(std::string_view text) {
    if (text.size() > kLargestFile)
        return refused(fmt::format("the file is larger than {} MiB", kLargestFile >> 20U),
                       "a job file is a few pages of text; is this the right file?");
    if (auto complaint = refuse_encoding(text)) return complaint;
    for (std::size_t at = 0; at < text.size();) {
        const unsigned byte = byte_at(text, at);
        const std::size_t length = sequence_length(text, at);
        if (length == 0)
            return refused(fmt::format("the byte {:02X} is not UTF-8 text", byte),
                           "save the file as UTF-8 in the editor",
                           Source(text.substr(0, at)).place(at));
        if (!typed(byte))
            return refused(fmt::format("a character that cannot be typed (code {})", byte),
                           byte == 0 ? "delete it; is this a text file?" : "delete it",
                           Source(text.substr(0, at)).place(at));
        at += length;
    }
    return std::nullopt;
}

Source::Source(std::string_view text) {
    if (text.starts_with(kByteOrderMark)) text.remove_prefix(kByteOrderMark.size());
    text_ = text;
    starts_.push_back(0);
    counts_.reserve(text_.size() / kStride + 1);
    std::uint32_t characters = 0;
    for (std::size_t at = 0; at < text_.size(); ++at) {
        if (at % kStride == 0) counts_.push_back(characters);
        if (!continues(byte_at(text_, at))) ++characters;
        // The YAML reader takes only \n and \r\n for a line's end.
        if (text_[at] == '\r' && byte_at(text_, at + 1) != '\n') text_[at] = '\n';
        if (text_[at] == '\n') starts_.push_back(static_cast<std::uint32_t>(at + 1));
    }
    if (text_.size() % kStride == 0) counts_.push_back(characters);
}

std::size_t Source::characters_before(std::size_t offset) const {
    const std::size_t block = offset / kStride;
    std::size_t characters = counts_.at(block);
    for (std::size_t at = block * kStride; at < offset; ++at)
        if (!continues(byte_at(text_, at))) ++characters;
    return characters;
}

std::size_t Source::line_of(std::size_t offset) const {
    const auto after = std::ranges::upper_bound(starts_, offset);
    return static_cast<std::size_t>(after - starts_.begin()) - 1;
}

job::Place Source::place(std::size_t offset) const {
    offset = std::min(offset, text_.size());
    const std::size_t line = line_of(offset);
    const std::size_t column = characters_before(offset) - characters_before(starts_[line]);
    return {.line = static_cast<int>(line) + 1, .column = static_cast<int>(column) + 1};
}

std::string_view Source::line(std::size_t line) const {
    const std::size_t start = starts_.at(line);
    const std::size_t end = line + 1 < starts_.size() ? starts_[line + 1] : text_.size();
    std::string_view whole = std::string_view(text_).substr(start, end - start);
    while (!whole.empty() && (whole.back() == '\n' || whole.back() == '\r'))
        whole.remove_suffix(1);
    return whole;
}

std::string clipped(std::string_view text) {
    std::string shown(text.substr(0, kLongestQuote));
    if (shown.size() < text.size()) {
        std::size_t cut = shown.size();
        while (cut > 0 && continues(byte_at(text, cut)))
            --cut;
        shown.resize(cut);
        shown += "\u2026";
    }
    std::replace_if(
        shown.begin(), shown.end(), [](char c) { return c == '\n' || c == '\r' || c == '\t'; },
        ' ');
    return shown;
}

std::string quoted(std::string_view text) {
    return "'" + clipped(text) + "'";
}

}  // namespace trialfit::reading
