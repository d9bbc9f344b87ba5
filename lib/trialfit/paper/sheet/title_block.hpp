// SPDX-License-Identifier: MIT
#pragma once

#include <cstddef>
#include <string>
#include <trialfit/draw/page/layout.hpp>
#include <trialfit/draw/section/section.hpp>
#include <trialfit/paper/printed.hpp>
#include <trialfit/paper/text/svg.hpp>
#include <trialfit/sheet/end_view.hpp>

namespace trialfit::paper {

/// What a drawing is called: the job's title, else its file's name; planned work said first.
[[nodiscard]] std::string title_of(bool planned, const std::string& title, const std::string& file);

/// Columns of text of this font size that go into `width` mm, capitals among them; at least 10.
[[nodiscard]] std::size_t columns_in(double width, double size);

/// The title block of a section; `document`: what kind of drawing it is. What the job does not give
/// is an empty field.
[[nodiscard]] draw::TitleBlock section_block(const draw::Section& section,
                                             const std::string& document, const DrawnBy& by);
/// The same of an end view.
[[nodiscard]] draw::TitleBlock end_block(const sheet::EndAnswer& answer, const DrawnBy& by);

}  // namespace trialfit::paper
