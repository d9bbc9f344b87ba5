// SPDX-License-Identifier: MIT
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

}  // namespace trialfit::paper
