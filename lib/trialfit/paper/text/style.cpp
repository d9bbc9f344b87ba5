// SPDX-License-Identifier: MIT
#include <trialfit/paper/text/layout.hpp>
#include <trialfit/paper/text/style.hpp>

namespace trialfit::paper {

namespace {

std::string_view escape(Ink ink) {
    switch (ink) {
        case Ink::strong:
            return "\x1b[1m";
        case Ink::good:
            return "\x1b[32m";
        case Ink::warn:
            return "\x1b[33m";
        case Ink::bad:
            return "\x1b[1;31m";
        case Ink::faint:
            return "\x1b[2m";
        case Ink::plain:
            break;
    }
    return "";
}

}  // namespace

std::string painted(const Style& style, Ink ink, std::string_view text) {
    std::string out(text);
    if (!style.colour || ink == Ink::plain || text.empty()) return out;
    return std::string(escape(ink)) + out + "\x1b[0m";
}

std::string heading(const Style& style, std::string_view text) {
    return "\n" + painted(style, Ink::strong, text) + "\n";
}

std::string bullets(const Style& style, std::string_view title,
                    const std::vector<std::string>& items) {
    if (items.empty()) return {};
    std::string out = heading(style, title);
    for (const std::string& item : items)
        out += paragraph(harmless(item), style.width, "  - ");
    return out;
}

}  // namespace trialfit::paper
