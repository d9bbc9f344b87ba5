// SPDX-License-Identifier: MIT
#include <algorithm>
#include <iterator>
#include <trialfit/paper/document/document.hpp>
#include <trialfit/paper/text/figures.hpp>
#include <utility>

namespace trialfit::paper {

namespace {

using Content = decltype(Block::content);

struct IsEmpty {
    bool operator()(const Headline& of) const { return of.text.empty(); }
    bool operator()(const Heading& of) const { return of.text.empty(); }
    bool operator()(const Paragraph& of) const { return of.text.empty() && of.command.empty(); }
    bool operator()(const Facts& of) const { return of.lines.empty(); }
    bool operator()(const List& of) const { return of.items.empty(); }
    bool operator()(const Table& of) const { return of.rows.empty(); }
    bool operator()(const Histogram& of) const { return of.bars.empty(); }
    bool operator()(const Cautions& of) const { return of.items.empty(); }
    bool operator()(const Picture& of) const { return of.svg.empty(); }
    bool operator()(const OnScreen& of) const { return of.html.empty(); }
};

}  // namespace

Column::Column(const char* figures) : heading(figures) {
    const std::size_t end = heading.find('\n');
    if (end == std::string::npos) return;
    below = heading.substr(end + 1);
    heading.erase(end);
}

void Table::add(std::vector<Cell> cells, std::string remark) {
    rows.push_back({.cells = std::move(cells), .remark = std::move(remark)});
}

Document& Document::under(Content content) {
    if (!std::visit(IsEmpty{}, content)) blocks.push_back({.content = std::move(content)});
    return *this;
}

Document& Document::add(Content content) {
    const std::size_t before = blocks.size();
    under(std::move(content));
    if (blocks.size() > before) blocks.back().apart = true;
    return *this;
}

Document& Document::for_text_only(bool detail) {
    blocks.back().text_only = true;
    blocks.back().detail = detail;
    return *this;
}

Document& Document::add(Document other) {
    std::move(other.blocks.begin(), other.blocks.end(), std::back_inserter(blocks));
    return *this;
}

Document& Document::add_details(Document other) {
    for (Block& each : other.blocks)
        each.detail = true;
    return add(std::move(other));
}

Document& Document::add_list(std::string heading, std::vector<std::string> items, List::Mark mark) {
    if (items.empty()) return *this;
    return add(Heading{std::move(heading)}).under(list_of(std::move(items), mark));
}

List list_of(std::vector<std::string> items, List::Mark mark) {
    List out{.mark = mark};
    out.items.reserve(items.size());
    for (std::string& each : items)
        out.items.push_back({.text = std::move(each)});
    return out;
}

std::string lead_in(const Table& table) {
    return table.caption.empty() || table.caption.ends_with('.') ? table.caption
                                                                 : table.caption + ":";
}

Table table_of(const Histogram& histogram) {
    Table out{.columns = {Column::names("From, to"), "How often, beside the most often",
                          Column::words("Limits")}};
    for (const Histogram::Bar& each : histogram.bars)
        out.add({each.range, percent(each.height), each.bad ? "fails" : "holds"});
    return out;
}

Table without_paper(Table table) {
    for (std::size_t c = table.columns.size(); c-- > 0;) {
        if (!table.columns[c].paper_only) continue;
        const auto at = static_cast<std::ptrdiff_t>(c);
        table.columns.erase(table.columns.begin() + at);
        for (Row& row : table.rows)
            row.cells.erase(row.cells.begin() + at);
    }
    return table;
}

}  // namespace trialfit::paper
