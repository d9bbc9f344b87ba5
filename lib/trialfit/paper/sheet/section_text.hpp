// SPDX-License-Identifier: MIT
#pragma once

#include <cstddef>
#include <string>
#include <trialfit/draw/section/section.hpp>

namespace trialfit::paper {

/// A small section above the axis in plain ASCII, at most `width` columns wide (>= 40; 80 are
/// enough) and some 24 lines high:
/// turning parts in capitals, still ones in small letters, one letter a part; X where two parts
/// would be in the same place, = for shims; under it the letters with their names. What is thinner
/// than a letter may be missing, a jam and shims never. Ends with a line end.
[[nodiscard]] std::string section_text(const draw::Section& section, std::size_t width = 80);

}  // namespace trialfit::paper
