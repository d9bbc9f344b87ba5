// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <string_view>
#include <trialfit/paper/document/document.hpp>

namespace trialfit::paper {

/// The document as one HTML page: no script, nothing fetched; prints on `paper` ("A4", a CSS page
/// size) without a cut table row, and reads at the width of a phone.
[[nodiscard]] std::string html_of(const Document& document, std::string_view paper);

}  // namespace trialfit::paper
