// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <algorithm>
#include <trialfit/paper/text/figures.hpp>
#include <trialfit/paper/text/layout.hpp>
#include <trialfit/paper/text/markup.hpp>

namespace trialfit::paper {

namespace {

// U+2068 and U+2069, by their bytes: here they are data, not marks in this source.
// NOLINTNEXTLINE(misc-misleading-bidirectional)
constexpr std::string_view kIsolate = "\xE2\x81\xA8";
// NOLINTNEXTLINE(misc-misleading-bidirectional)
constexpr std::string_view kEndIsolate = "\xE2\x81\xA9";

// harmless() would take the marks that isolated() set for the reordering kind that they tame.
std::string harmless_but_isolated(std::string_view text) {
    std::string out;
    while (!text.empty()) {
        const std::size_t mark = std::min(text.find(kIsolate), text.find(kEndIsolate));
        out += harmless(text.substr(0, mark));
        if (mark == std::string_view::npos) break;
        out += text.substr(mark, kIsolate.size());
        text.remove_prefix(mark + kIsolate.size());
    }
    return out;
}

}  // namespace

std::string escaped(std::string_view text) {
    std::string out;
    for (const char c : harmless_but_isolated(text)) {
        switch (c) {
            case '&':
                out += "&amp;";
                break;
            case '<':
                out += "&lt;";
                break;
            case '>':
                out += "&gt;";
                break;
            case '"':
                out += "&quot;";
                break;
            case '\'':
                out += "&#39;";
                break;
            default:
                out += c;
        }
    }
    return out;
}

std::string isolated(std::string_view text) {
    const bool plain =
        std::ranges::all_of(text, [](char c) { return static_cast<unsigned char>(c) < 0x80; });
    if (plain) return std::string(text);
    return std::string(kIsolate) + std::string(text) + std::string(kEndIsolate);
}

std::string coordinate(double value) {
    std::string out = fmt::format("{:.2f}", finite(value));
    out.erase(out.find_last_not_of('0') + 1);
    if (out.back() == '.') out.pop_back();
    return out == "-0" ? "0" : out;
}

}  // namespace trialfit::paper
