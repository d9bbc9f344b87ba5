// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <trialfit/paper/document/document.hpp>

namespace trialfit::paper {

/// The document in Markdown with tables; drawings, bars and places to write are left out. No reader
/// of Markdown takes its words for markup, a link or HTML.
[[nodiscard]] std::string markdown_of(const Document& document);

}  // namespace trialfit::paper
