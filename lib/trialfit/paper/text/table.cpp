// SPDX-License-Identifier: MIT
#include <algorithm>
#include <numeric>
#include <trialfit/paper/text/layout.hpp>
#include <trialfit/paper/text/table.hpp>

namespace trialfit::paper {

namespace {

constexpr std::string_view kBetween = "  ";
constexpr std::size_t kLeastForNames = 20;
constexpr std::size_t kRemarkIndent = 4;

std::size_t names_column(const Table& table) {
    const auto names = std::ranges::find(table.columns, Column::Set::names, &Column::set);
    return names == table.columns.end() ? 0
                                        : static_cast<std::size_t>(names - table.columns.begin());
}

std::size_t widest(const Table& table, std::size_t column) {
    const Column& head = table.columns[column];
    std::size_t width = std::max(columns(head.heading), columns(head.below));
    for (const Row& row : table.rows) {
        width = std::max(width, columns(row.cells[column].text));
        width = std::max(width, columns(row.cells[column].below));
    }
    return width;
}

// Width of each column; the names get at most what the figures leave of `total`, 0 for too little:
// they then stand on lines of their own.
std::vector<std::size_t> widths(const Table& table, std::size_t total) {
    const std::size_t names = names_column(table);
    std::vector<std::size_t> out(table.columns.size());
    std::size_t figures = kBetween.size() * (table.columns.size() - 1);
    for (std::size_t c = 0; c < out.size(); ++c) {
        out[c] = widest(table, c);
        if (c != names) figures += out[c];
    }
    const std::size_t left_over = total > figures ? total - figures : 0;
    if (out[names] > left_over) out[names] = left_over < kLeastForNames ? 0 : left_over;
    return out;
}

void trim_end(std::string& line) {
    line.erase(line.find_last_not_of(' ') + 1);
}

// The lines of one cell: names wrap, their later lines indented; others have one line or two.
std::vector<std::string> lines_of(const Column& column, const Cell& cell, std::size_t width) {
    std::vector<std::string> out;
    if (column.set == Column::Set::names) {
        out = wrapped(cell.text, width);
        if (out.size() > 1) {
            out = wrapped(cell.text, width - 2);
            for (std::size_t i = 1; i < out.size(); ++i)
                out[i].insert(0, "  ");
        }
    } else {
        out.push_back(cell.text);
    }
    if (!cell.below.empty()) out.push_back(cell.below);
    return out;
}

std::string set_row(const Table& table, const Row& row, const std::vector<std::size_t>& widths,
                    const Style& style) {
    std::vector<std::vector<std::string>> cells;
    std::size_t height = 1;
    for (std::size_t c = 0; c < row.cells.size(); ++c) {
        cells.push_back(lines_of(table.columns[c], row.cells[c], widths[c]));
        height = std::max(height, cells.back().size());
    }
    std::string out;
    for (std::size_t i = 0; i < height; ++i) {
        std::string line;
        for (std::size_t c = 0; c < cells.size(); ++c) {
            if (c > 0) line += kBetween;
            const std::string text = i < cells[c].size() ? cells[c][i] : std::string();
            // Spaces stay unpainted so that they can be trimmed.
            const std::string pad(widths[c] - std::min(widths[c], columns(text)), ' ');
            const std::string ink = painted(style, row.cells[c].ink, text);
            line += table.columns[c].set == Column::Set::right ? pad + ink : ink + pad;
        }
        trim_end(line);
        out += line + "\n";
    }
    if (!row.remark.empty())
        out += paragraph(row.remark, style.width, std::string(kRemarkIndent, ' '));
    return out;
}

std::string set_heading(const Table& table, const std::vector<std::size_t>& widths,
                        const Style& style) {
    Row row;
    for (const Column& column : table.columns)
        row.cells.emplace_back(column.heading, Ink::faint, column.below);
    return set_row(table, row, widths, style);
}

// The name on a line of its own, its figures in their columns below.
std::string set_stacked(const Table& table, Row row, const std::vector<std::size_t>& widths,
                        const Style& style) {
    const std::size_t names = names_column(table);
    std::string out = paragraph(row.cells[names].text, style.width);
    row.cells[names] = {};
    return out + set_row(table, row, widths, style);
}

// For figures too long to stand side by side.
std::string set_as_list(const Table& table, const Row& row, const Style& style) {
    const std::size_t names = names_column(table);
    const std::string indent(kRemarkIndent, ' ');
    std::string out = paragraph(row.cells[names].text, style.width);
    for (std::size_t c = 0; c < row.cells.size(); ++c) {
        const Cell& cell = row.cells[c];
        if (c == names || cell.text.empty()) continue;
        const std::string& heading = table.columns[c].heading;
        std::string line = heading.empty() ? cell.text : heading + " " + cell.text;
        if (!cell.below.empty()) line += " " + cell.below;
        out += paragraph(line, style.width, indent);
    }
    if (!row.remark.empty()) out += paragraph(row.remark, style.width, indent);
    return out;
}

std::size_t sum_of(const std::vector<std::size_t>& widths) {
    return std::accumulate(widths.begin(), widths.end(), kBetween.size() * (widths.size() - 1));
}

// As it is set: nothing in it can move a column, and its names are marked as such.
Table as_set(const Table& given, const Style& style) {
    const auto set = [&style](std::string& text) { text = signs(style, harmless(text)); };
    Table out = without_paper(given);
    for (Column& each : out.columns) {
        set(each.heading);
        set(each.below);
    }
    for (Row& row : out.rows) {
        set(row.remark);
        for (Cell& each : row.cells) {
            set(each.text);
            set(each.below);
        }
    }
    if (!out.columns.empty()) out.columns[names_column(out)].set = Column::Set::names;
    return out;
}

}  // namespace

std::string table(const Table& given, const Style& style) {
    const Table table = as_set(given, style);
    if (table.rows.empty() || table.columns.empty()) return {};
    std::vector<std::size_t> width = widths(table, style.width);
    const std::size_t names = names_column(table);
    const bool side_by_side = width[names] > 0;
    // Stacked, the column of names is an indent that its heading fits into.
    if (!side_by_side)
        width[names] = std::max(kRemarkIndent, columns(table.columns[names].heading));
    if (!side_by_side && sum_of(width) > style.width) {
        std::string list;
        for (const Row& row : table.rows)
            list += set_as_list(table, row, style);
        return list;
    }
    std::string out = set_heading(table, width, style);
    for (const Row& row : table.rows)
        out += side_by_side ? set_row(table, row, width, style)
                            : set_stacked(table, row, width, style);
    return out;
}

}  // namespace trialfit::paper
