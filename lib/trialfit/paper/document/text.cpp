// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <trialfit/paper/document/text.hpp>
#include <trialfit/paper/text/layout.hpp>
#include <trialfit/paper/text/table.hpp>

namespace trialfit::paper {

namespace {

constexpr std::string_view kIndent = "  ";
// Under a number and its full stop.
constexpr std::string_view kUnderNumber = "     ";

std::string marked(const List& list, std::size_t number) {
    switch (list.mark) {
        case List::Mark::number:
            return fmt::format("  {}. ", number);
        case List::Mark::source:
            return fmt::format("  [{}] ", number);
        case List::Mark::dash:
            break;
    }
    return list.nested ? "    - " : "  - ";
}

// Never wrapped: a command is copied.
std::string command_line(std::string_view indent, const std::string& command) {
    if (command.empty()) return {};
    return std::string(indent) + std::string(kIndent) + harmless(command) + "\n";
}

struct TextSetter {
    const Style& style;

    [[nodiscard]] std::string shown(std::string_view text) const {
        return signs(style, harmless(text));
    }

    [[nodiscard]] std::string painted_lines(Ink ink, std::string_view text) const {
        // Painted line by line, after wrapping, so that the escapes are not counted as letters.
        std::string out;
        for (const std::string& line : wrapped(shown(text), style.width))
            out += painted(style, ink, line) + "\n";
        return out;
    }

    [[nodiscard]] std::string lines(const std::vector<Fact>& facts, std::string_view indent,
                                    std::size_t label_columns) const {
        std::string out;
        for (const Fact& each : facts) {
            const std::string first = std::string(indent) + left(shown(each.label), label_columns);
            const std::string text = shown(each.text);
            out += columns(first) + columns(text) <= style.width
                       ? first + text + "\n"
                       : paragraph(text, style.width, first);
        }
        return out;
    }

    std::string operator()(const Headline& of) const {
        const std::string aside =
            of.aside.empty() ? "" : "\n" + paragraph(shown(of.aside), style.width);
        return painted_lines(of.ink, of.text) + aside;
    }
    std::string operator()(const Heading& of) const { return painted_lines(Ink::strong, of.text); }
    std::string operator()(const Paragraph& of) const {
        const std::string_view first = of.indented ? kIndent : "";
        return (of.text.empty() ? "" : paragraph(shown(of.text), style.width, first)) +
               command_line(first, of.command);
    }
    std::string operator()(const Facts& of) const {
        return lines(of.lines, kIndent, of.label_columns);
    }
    std::string operator()(const List& of) const {
        std::string out;
        std::size_t number = 0;
        for (const Item& each : of.items) {
            out += paragraph(shown(each.text), style.width, marked(of, ++number));
            out += command_line(kUnderNumber, each.command);
            out += lines(each.facts, kUnderNumber, Facts{}.label_columns);
        }
        return out;
    }
    std::string operator()(const Table& of) const {
        const std::string caption =
            of.caption.empty() ? "" : paragraph(shown(lead_in(of)), style.width);
        return caption + table(of, style);
    }
    std::string operator()(const Histogram& of) const {
        constexpr std::size_t kRange = 18;
        constexpr std::size_t kAround = 36;
        constexpr std::size_t kLeastRoom = 4;
        const std::size_t room = std::max(kLeastRoom, style.width - std::min(style.width, kAround));
        std::string out;
        for (const Histogram::Bar& each : of.bars) {
            const auto length =
                static_cast<std::size_t>(std::lround(each.height * static_cast<double>(room)));
            out += "  " + right(shown(each.range), kRange) + "  ";
            out += painted(style, each.bad ? Ink::bad : Ink::good,
                           std::string(length, each.bad ? 'x' : '#'));
            if (each.needed) out += " <- needed";
            out += "\n";
        }
        return out + "  # holds, x fails\n";
    }
    std::string operator()(const Cautions& of) const {
        return (*this)(Heading{of.heading}) + (*this)(list_of(of.items));
    }
    std::string operator()(const Picture& /*of*/) const { return {}; }
    std::string operator()(const OnScreen& /*of*/) const { return {}; }
};

}  // namespace

std::string text_of(const Document& document, const Style& style) {
    std::string out;
    for (const Block& each : document.blocks) {
        if (style.brief && each.detail) continue;
        const std::string set = std::visit(TextSetter{style}, each.content);
        if (each.apart && !out.empty() && !set.empty()) out += "\n";
        out += set;
    }
    return out;
}

}  // namespace trialfit::paper
