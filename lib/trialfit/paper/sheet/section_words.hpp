// SPDX-License-Identifier: MIT
#pragma once

#include <trialfit/draw/page/layout.hpp>

namespace trialfit::paper {

/// What is written into a drawing of `section`: names, figures with their limits, verdicts. Names
/// are shortened to `width` columns.
[[nodiscard]] draw::SectionWords section_words(const draw::Section& section, std::size_t width);

/// The section in sentences, for those who cannot see it: the answer, the parts in their order,
/// what stands proud, what fouls, and each dimension.
[[nodiscard]] std::string section_in_words(const draw::Section& section);

}  // namespace trialfit::paper
