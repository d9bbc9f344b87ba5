// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <trialfit/paper/document/text.hpp>
#include <trialfit/timing/answers.hpp>

namespace trialfit::paper {

/// The timing in plain words, one paragraph without line breaks: "The slot is too short: ..."
[[nodiscard]] std::string timing_headline(const timing::TimingAnswer& answer);

/// What `timing` found, for people: the answer in plain words first, then the firing point and
/// where its doubt comes from, the top, the marks, the slot, the advance with speed, notes and
/// cautions; what the job says nothing about is left out.
[[nodiscard]] Document document_of(const timing::TimingAnswer& answer);
/// The same as text, within the style's width.
[[nodiscard]] inline std::string timing_text(const timing::TimingAnswer& answer,
                                             const Style& style) {
    return text_of(document_of(answer), style);
}

/// Indented JSON, ended by a line end; validates against schemas/timing.schema.json. Lengths in the
/// file's unit, angles in degrees of crank, in full double precision.
[[nodiscard]] std::string timing_json(const timing::TimingAnswer& answer);

}  // namespace trialfit::paper
