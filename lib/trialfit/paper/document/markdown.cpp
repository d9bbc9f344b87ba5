// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <algorithm>
#include <trialfit/paper/document/markdown.hpp>
#include <trialfit/paper/text/layout.hpp>
#include <trialfit/paper/text/words.hpp>

namespace trialfit::paper {

namespace {

constexpr std::size_t kLongestCell = 200;

// Text that no Markdown reader takes for markup, link or HTML.
std::string without_markup(std::string_view text) {
    std::string out;
    for (const char c : harmless(text)) {
        if (c == '<') {
            out += "&lt;";
        } else if (c == '&') {
            out += "&amp;";
        } else {
            if (std::string_view("\\`*_[]|#!~").find(c) != std::string_view::npos) out += '\\';
            out += c;
        }
    }
    return out;
}

// The same at the start of a line, where it could also be taken for a quotation or a list.
std::string line_without_markup(std::string_view text) {
    std::string out = without_markup(text);
    if (out.starts_with('>') || out.starts_with("- ") || out.starts_with("+ ") ||
        out.starts_with('='))
        out.insert(out.begin(), '\\');
    return out;
}

// Between more grave accents than stand in it.
std::string code(const std::string& text) {
    const std::string inner = harmless(text);
    std::size_t run = 0;
    std::size_t longest = 0;
    for (const char c : inner) {
        run = c == '`' ? run + 1 : 0;
        longest = std::max(longest, run);
    }
    const std::string fence(longest + 1, '`');
    const std::string_view pad = longest > 0 ? " " : "";
    return fmt::format("{0}{1}{2}{1}{0}", fence, pad, inner);
}

std::string fact_lines(const std::vector<Fact>& facts, std::string_view indent) {
    std::string out;
    for (const Fact& each : facts)
        out += fmt::format("{}- {}{}{}\n", indent, without_markup(each.label),
                           each.label.empty() ? "" : ": ", without_markup(each.text));
    return out;
}

std::string cell(const Cell& of) {
    std::string text = without_markup(listed(of.text, kLongestCell));
    if (of.bold()) text = "**" + text + "**";
    if (!of.below.empty()) text += " " + without_markup(listed(of.below, kLongestCell));
    return text;
}

struct MarkdownSetter {
    std::string operator()(const Headline& of) const {
        const std::string aside =
            of.aside.empty() ? "" : "\n" + line_without_markup(of.aside) + "\n";
        return "**" + without_markup(of.text) + "**\n" + aside;
    }
    std::string operator()(const Heading& of) const {
        return "## " + without_markup(of.text) + "\n";
    }
    std::string operator()(const Paragraph& of) const {
        const std::string between = of.text.empty() || of.command.empty() ? "" : "\n";
        return (of.text.empty() ? "" : line_without_markup(of.text) + "\n") + between +
               (of.command.empty() ? "" : code(of.command) + "\n");
    }
    std::string operator()(const Facts& of) const { return fact_lines(of.lines, ""); }
    std::string operator()(const List& of) const {
        std::string out;
        std::size_t number = 0;
        for (const Item& each : of.items) {
            ++number;
            const std::string mark =
                of.mark == List::Mark::dash ? std::string("- ") : fmt::format("{}. ", number);
            out += mark + line_without_markup(each.text);
            if (!each.command.empty()) out += " " + code(each.command);
            out += "\n" + fact_lines(each.facts, std::string(mark.size(), ' '));
        }
        return out;
    }
    std::string operator()(const Table& given) const {
        const Table of = without_paper(given);
        std::string out = of.caption.empty() ? "" : line_without_markup(lead_in(of)) + "\n\n";
        std::string rule;
        for (const Column& each : of.columns) {
            out += fmt::format(
                "| {} ",
                without_markup(each.heading + (each.below.empty() ? "" : " ") + each.below));
            rule += each.set == Column::Set::right ? "|---:" : "|---";
        }
        out += "|\n" + rule + "|\n";
        for (const Row& row : of.rows) {
            for (std::size_t c = 0; c < row.cells.size(); ++c) {
                out += "| " + cell(row.cells[c]);
                if (c == 0 && !row.remark.empty()) out += " (" + without_markup(row.remark) + ")";
                out += " ";
            }
            out += "|\n";
        }
        return out;
    }
    std::string operator()(const Histogram& of) const { return (*this)(table_of(of)); }
    std::string operator()(const Cautions& of) const {
        return (*this)(Heading{of.heading}) + "\n" + (*this)(list_of(of.items));
    }
    std::string operator()(const Picture& /*of*/) const { return {}; }
    std::string operator()(const OnScreen& /*of*/) const { return {}; }
};

}  // namespace

std::string markdown_of(const Document& document) {
    std::string out = document.title.empty() ? "" : "# " + without_markup(document.title) + "\n";
    for (const Block& each : document.blocks) {
        if (each.text_only) continue;
        const std::string set = std::visit(MarkdownSetter{}, each.content);
        if (!out.empty() && !set.empty()) out += "\n";
        out += set;
    }
    return out;
}

}  // namespace trialfit::paper
