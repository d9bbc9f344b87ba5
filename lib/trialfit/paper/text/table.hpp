// SPDX-License-Identifier: MIT
#pragma once

#include <cstddef>
#include <string>
#include <trialfit/paper/text/style.hpp>
#include <vector>

// A table for people: figures right-aligned, one column of names that takes what width is left and
// wraps.
namespace trialfit::paper {

struct Column {
    std::string heading{};
    /// Second line of the heading; may be empty.
    std::string below{};
    enum class Set { right, left, names } set = Set::right;
};

struct Cell {
    std::string text{};
    Ink ink = Ink::plain;
    /// Set under `text`; may be empty.
    std::string below{};
};

struct Row {
    /// As many as there are columns.
    std::vector<Cell> cells;
    /// Runs under the row over the whole width; may be empty.
    std::string remark{};
};

struct Table {
    /// Exactly one is a column of names.
    std::vector<Column> columns;
    std::vector<Row> rows;
};

/// The table within the style's width. Where the figures leave the names less than 20 columns, each
/// name stands on a line of its own above its figures; where even the figures do not fit, they are
/// listed one a line. Empty text for a table without rows.
[[nodiscard]] std::string table(const Table& table, const Style& style);

}  // namespace trialfit::paper
