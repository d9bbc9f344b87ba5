// SPDX-License-Identifier: MIT
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <trialfit/draw/page/layout.hpp>
#include <trialfit/paper/printed.hpp>
#include <trialfit/paper/text/svg.hpp>
#include <variant>
#include <vector>

namespace trialfit::paper {

/// The drawing of section_svg(), before it is written down.
[[nodiscard]] std::variant<draw::Drawing, draw::TooLarge> section_drawing(
    const std::vector<draw::Section>& states, const draw::PageSize& page,
    std::optional<double> scale, const DrawnBy& by = {});

/// The page of draw::detail_page, before it is written down.
[[nodiscard]] std::optional<draw::Drawing> details_drawing(const draw::Section& section,
                                                           const draw::PageSize& page,
                                                           const DrawnBy& by = {});
/// The same as SVG.
[[nodiscard]] std::optional<std::string> details_svg(const draw::Section& section,
                                                     const draw::PageSize& page,
                                                     const DrawnBy& by = {});

/// What is written into a drawing of `section`: names, figures with their limits, verdicts. Names
/// are shortened to `width` columns.
[[nodiscard]] draw::SectionWords section_words(const draw::Section& section, std::size_t width);

/// The section in sentences, for those who cannot see it: the answer, the parts in their order,
/// what stands proud, what fouls, and each dimension.
[[nodiscard]] std::string section_in_words(const draw::Section& section);

}  // namespace trialfit::paper
