// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <trialfit/paper/document/document.hpp>
#include <trialfit/paper/text/style.hpp>

namespace trialfit::paper {

/// The table within the style's width: figures right-aligned, the column of names takes what width
/// is left and wraps. Where the figures leave the names less than 20 columns, each name stands on a
/// line of its own above its figures; where even the figures do not fit, they are listed one a
/// line. Without its caption, and without the columns that are of use on paper only. Empty text for
/// a table without rows.
[[nodiscard]] std::string table(const Table& given, const Style& style);

}  // namespace trialfit::paper
