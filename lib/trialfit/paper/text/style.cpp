// SPDX-License-Identifier: MIT
#include <array>
#include <trialfit/paper/text/style.hpp>
#include <utility>

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

std::string signs(const Style& style, std::string text) {
    if (!style.ascii) return text;
    constexpr std::array<std::pair<std::string_view, std::string_view>, 4> kSigns{
        {{"±", "+/-"}, {"≥", ">="}, {"≤", "<="}, {"µ", "u"}}};
    for (const auto& [sign, ascii] : kSigns)
        for (std::size_t at = text.find(sign); at != std::string::npos; at = text.find(sign, at))
            text.replace(at, sign.size(), ascii);
    return text;
}

std::string painted(const Style& style, Ink ink, std::string_view text) {
    std::string out(text);
    if (!style.colour || ink == Ink::plain || text.empty()) return out;
    return std::string(escape(ink)) + out + "\x1b[0m";
}

}  // namespace trialfit::paper
