// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <trialfit/paper/document/document.hpp>
#include <trialfit/paper/printed.hpp>
#include <trialfit/sheet/sheet.hpp>

namespace trialfit::paper {

/// What the sheet says, without the section.
[[nodiscard]] Document document_of(const sheet::SheetAnswer& answer, const SheetStyle& style);

}  // namespace trialfit::paper
