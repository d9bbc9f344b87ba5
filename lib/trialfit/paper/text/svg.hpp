// SPDX-License-Identifier: MIT
#pragma once

#include <optional>
#include <string>
#include <trialfit/draw/page/layout.hpp>
#include <variant>
#include <vector>

namespace trialfit::paper {

/// What a drawing is called, and what it shows in words.
struct SvgTitle {
    std::string title;
    std::string description;
    /// Of its elements, for a page that has several.
    std::string id = "section";
};

/// `drawing` as SVG 1.1: of true size in print, or `inside` a page of HTML as wide as its place
/// there. Text stays text, in a generic font; no style sheet, no script, nothing from elsewhere.
[[nodiscard]] std::string svg(const draw::Drawing& drawing, const SvgTitle& title, bool inside);

/// The section above the axis inside an HTML page, `width` mm wide in print, as high as it needs up
/// to `height`, or twice that where its names need it. Empty where it cannot be made to go there.
/// `id`: of its elements, another one for each figure of a page.
[[nodiscard]] std::string section_figure(const draw::Section& section, double width, double height,
                                         const std::string& id = "section");

}  // namespace trialfit::paper
