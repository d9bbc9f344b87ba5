// SPDX-License-Identifier: MIT
#pragma once

#include <optional>
#include <string>
#include <variant>

// Drawings as PNG and PDF, through the program rsvg-convert of librsvg where it is installed.
namespace trialfit::cli {

enum class PictureFormat { svg, png, pdf };

/// By the ending of the file's name (".png", ".PDF"); SVG for any other, and for no file.
[[nodiscard]] PictureFormat picture_format(const std::optional<std::string>& file);

/// Whether that format can be made here, and the file's name is of no other one; else tells on
/// standard error what to do and returns false. To be asked before work that takes long.
[[nodiscard]] bool can_convert(PictureFormat format, const std::string& file);

/// The drawing in that format: PNG of 300 dots per inch, PDF of the drawing's own size. The exit
/// code where rsvg-convert fails, which is told on standard error.
[[nodiscard]] std::variant<std::string, int> converted(const std::string& svg, PictureFormat format,
                                                       const std::string& file);

}  // namespace trialfit::cli
