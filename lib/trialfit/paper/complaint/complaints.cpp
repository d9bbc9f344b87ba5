// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <algorithm>
#include <cstddef>
#include <trialfit/paper/printed.hpp>
#include <trialfit/paper/text/layout.hpp>
#include <trialfit/paper/text/words.hpp>
#include <trialfit/paper/words/words.hpp>
#include <vector>

namespace trialfit::paper {

namespace {

constexpr std::size_t kLongestLine = 76;
constexpr std::size_t kMostPrinted = 200;
constexpr std::size_t kCountFrom = 4;
constexpr std::string_view kDots = "...";

// The lines of a text, ended by \n, \r\n or \r, as YAML counts them.
std::vector<std::string_view> lines_of(std::string_view text) {
    if (text.substr(0, 3) == "\xEF\xBB\xBF") text.remove_prefix(3);
    std::vector<std::string_view> out;
    while (!text.empty()) {
        const std::size_t end = std::min(text.find_first_of("\r\n"), text.size());
        out.push_back(text.substr(0, end));
        const std::size_t ending = text.substr(end, 2) == "\r\n" ? 2 : 1;
        text.remove_prefix(std::min(end + ending, text.size()));
    }
    return out;
}

// Part of a line: the glyphs [first, last).
struct Window {
    std::size_t first = 0;
    std::size_t last = 0;
};

std::size_t width_of(const std::vector<Glyph>& all, Window window) {
    std::size_t sum = 0;
    for (std::size_t i = window.first; i < window.last; ++i)
        sum += all[i].columns;
    return sum;
}

// The widest window round `caret` that leaves room for dots at both ends: a third of it before the
// caret, since what follows a fault explains more than what leads up to it.
Window window_round(const std::vector<Glyph>& all, std::size_t caret) {
    const Window whole{.first = 0, .last = all.size()};
    if (width_of(all, whole) <= kLongestLine) return whole;
    const std::size_t room = kLongestLine - 2 * kDots.size();
    Window window{.first = std::min(caret, all.size()), .last = std::min(caret, all.size())};
    while (window.first > 0 && width_of(all, window) + all[window.first - 1].columns <= room / 3)
        --window.first;
    while (window.last < all.size() && width_of(all, window) + all[window.last].columns <= room)
        ++window.last;
    while (window.first > 0 && width_of(all, window) + all[window.first - 1].columns <= room)
        --window.first;
    return window;
}

std::string source_line(std::string_view line, int column, const Style& style) {
    const std::string shown = harmless(line);
    const std::vector<Glyph> all = glyphs(shown);
    const std::size_t caret =
        std::min(static_cast<std::size_t>(std::max(column, 1)) - 1, all.size());
    const Window window = window_round(all, caret);
    std::string text = "  ";
    std::size_t indent = 2;
    if (window.first > 0) {
        text += kDots;
        indent += kDots.size();
    }
    indent += width_of(all, {.first = window.first, .last = caret});
    for (std::size_t i = window.first; i < window.last; ++i)
        text += all[i].bytes;
    if (window.last < all.size()) text += kDots;
    text.erase(text.find_last_not_of(' ') + 1);
    return text + "\n" + std::string(indent, ' ') + painted(style, Ink::strong, "^") + "\n";
}

std::string one(const job::Complaint& complaint, std::string_view file,
                const std::vector<std::string_view>& lines, const Style& style) {
    const bool error = complaint.severity == job::Severity::error;
    std::string out = harmless(file);
    if (complaint.at.line > 0) out += fmt::format(":{}:{}", complaint.at.line, complaint.at.column);
    out += ": ";
    out += painted(style, error ? Ink::bad : Ink::warn, error ? "error:" : "warning:");
    out += " " + signs(style, harmless(complaint.fault));
    if (const std::string mend = mend_of(complaint); !mend.empty())
        out += "; " + signs(style, harmless(mend));
    out += "\n";
    const auto line = static_cast<std::size_t>(std::max(complaint.at.line, 0));
    if (line > 0 && line <= lines.size())
        out += source_line(lines[line - 1], complaint.at.column, style);
    return out;
}

std::string summary(const job::Complaints& complaints, std::string_view file) {
    const auto errors = static_cast<std::size_t>(
        std::ranges::count(complaints, job::Severity::error, &job::Complaint::severity));
    const std::size_t warnings = complaints.size() - errors;
    std::string out = harmless(file) + ": ";
    if (errors > 0) out += counted(errors, "error");
    if (errors > 0 && warnings > 0) out += ", ";
    if (warnings > 0) out += counted(warnings, "warning");
    if (complaints.size() > kMostPrinted)
        out += fmt::format("; the first {} are shown", kMostPrinted);
    return out + "\n";
}

}  // namespace

std::string complaints_text(const job::Complaints& complaints, std::string_view file,
                            std::string_view source, const Style& style) {
    const std::vector<std::string_view> lines = lines_of(source);
    std::string out;
    for (std::size_t i = 0; i < std::min(complaints.size(), kMostPrinted); ++i)
        out += one(complaints[i], file, lines, style);
    if (complaints.size() >= kCountFrom) out += summary(complaints, file);
    return out;
}

}  // namespace trialfit::paper
