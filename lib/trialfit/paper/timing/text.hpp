// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <trialfit/paper/document/document.hpp>
#include <trialfit/timing/answers.hpp>

namespace trialfit::paper {

/// The timing in plain words, one paragraph without line breaks: "The slot is too short: ..."
[[nodiscard]] std::string timing_headline(const timing::TimingAnswer& answer);

/// What `timing` found, for people: the answer in plain words first, then the firing point and
/// where its doubt comes from, the top, the marks, the slot, the advance with speed, notes and
/// cautions; what the job says nothing about is left out.
[[nodiscard]] Document document_of(const timing::TimingAnswer& answer);

}  // namespace trialfit::paper
