// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <trialfit/paper/document/text.hpp>
#include <trialfit/trade/reference/reference.hpp>

namespace trialfit::paper {

/// What `table` looked up, for people: the answer in a sentence, then each figure with its unit
/// and, under a number, its source. Figures rounded to six digits. Within the style's width.
[[nodiscard]] Document document_of(const trade::Reference& answer);
/// The same as text.
[[nodiscard]] inline std::string reference_text(const trade::Reference& answer,
                                                const Style& style) {
    return text_of(document_of(answer), style);
}

/// The same for programs; validates against schemas/table.schema.json. Full double precision.
[[nodiscard]] std::string reference_json(const trade::Reference& answer);

}  // namespace trialfit::paper
