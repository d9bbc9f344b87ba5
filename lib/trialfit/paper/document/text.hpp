// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <trialfit/paper/document/document.hpp>
#include <trialfit/paper/text/style.hpp>

namespace trialfit::paper {

/// The document as text for a terminal, within the style's width; nothing in it can move the cursor
/// or colour the terminal but the style. A brief one is without its details; drawings, bars and
/// places to write are left out.
[[nodiscard]] std::string text_of(const Document& document, const Style& style);

}  // namespace trialfit::paper
