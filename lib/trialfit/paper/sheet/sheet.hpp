// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <trialfit/paper/document/document.hpp>
#include <trialfit/sheet/sheet.hpp>

namespace trialfit::paper {

struct SheetStyle {
    /// Standing paper that it is printed on, mm.
    double width = 210.0;
    double height = 297.0;
    std::string paper = "A4";
    /// Lengths in inches beside the file's unit.
    bool inches = false;
};

/// What the sheet says, without the section.
[[nodiscard]] Document document_of(const sheet::SheetAnswer& answer, const SheetStyle& style);

/// The sheet as one HTML page: no script, nothing fetched, the section inline; prints on the
/// style's paper without a cut table row, and reads at the width of a phone.
[[nodiscard]] std::string sheet_html(const sheet::SheetAnswer& answer, const SheetStyle& style);

/// The same in Markdown with tables, without the section.
[[nodiscard]] std::string sheet_markdown(const sheet::SheetAnswer& answer, const SheetStyle& style);

}  // namespace trialfit::paper
