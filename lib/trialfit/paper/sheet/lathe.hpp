// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <trialfit/paper/printed.hpp>
#include <trialfit/paper/sheet/sheet.hpp>

namespace trialfit::paper {

/// The page for the person at the lathe: cautions, then each cut in its order with a picture of the
/// part as it is to be, a letter at its finish size, the readings that pass, what must remain, the
/// passes, and lines to write the readings on. Where there is nothing to turn it says why.
[[nodiscard]] Document lathe_document(const sheet::SheetAnswer& answer, const SheetStyle& style);

/// The same as one HTML page in large print, with the pictures; one sheet of A4 or Letter up to two
/// cuts.
[[nodiscard]] std::string lathe_html(const sheet::SheetAnswer& answer, const SheetStyle& style);

/// The same in Markdown, without the pictures.
[[nodiscard]] std::string lathe_markdown(const sheet::SheetAnswer& answer, const SheetStyle& style);

}  // namespace trialfit::paper
