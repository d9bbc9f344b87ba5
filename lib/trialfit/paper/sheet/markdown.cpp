// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <trialfit/paper/check/headline.hpp>
#include <trialfit/paper/sheet/blocks.hpp>
#include <trialfit/paper/text/layout.hpp>
#include <trialfit/paper/text/words.hpp>

namespace trialfit::paper {

namespace {

// Text that no Markdown reader takes for markup, link or HTML.
std::string plain(const std::string& text) {
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

std::string markdown_table(const SheetTable& of) {
    std::string head;
    std::string rule;
    for (const auto& column : of.columns) {
        if (column.paper_only) continue;
        head += "| " + column.heading + " ";
        rule += column.figures ? "|---:" : "|---";
    }
    std::string caption = plain(of.caption.substr(0, of.caption.find("; bars")));
    if (!caption.ends_with('.')) caption += ':';
    std::string out = caption + "\n\n" + head + "|\n" + rule + "|\n";
    for (const auto& row : of.rows) {
        for (std::size_t i = 0; i < row.size(); ++i) {
            if (of.columns[i].paper_only) continue;
            const std::string text = plain(listed(row[i].text, 200));
            out +=
                row[i].kind == SheetCell::Kind::strong ? "| **" + text + "** " : "| " + text + " ";
        }
        out += "|\n";
    }
    return out;
}

}  // namespace

std::string sheet_markdown(const sheet::SheetAnswer& answer, const SheetStyle& style) {
    const std::vector<Finding> all = distinct_findings(answer.check);
    const Lengths lengths{answer.units, decimals_for(answer.units, all), style.inches};
    std::string out = fmt::format("# {}\n\n**{}**\n\nLengths in {}{}.\n",
                                  plain(sheet_title(answer)), plain(headline(answer.check)),
                                  plural(answer.units), style.inches ? ", inches in brackets" : "");
    for (const SheetBlock& block : sheet_blocks(answer, all, lengths)) {
        if (!block.heading.empty()) out += "\n## " + block.heading + "\n";
        for (const std::string& text : block.paragraphs)
            out += "\n" + plain(text) + "\n";
        if (block.table) out += "\n" + markdown_table(*block.table);
        if (!block.bullets.empty()) out += "\n";
        for (const std::string& text : block.bullets)
            out += "- " + plain(text) + "\n";
    }
    return out;
}

}  // namespace trialfit::paper
