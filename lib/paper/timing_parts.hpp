// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <trialfit/paper/style.hpp>
#include <trialfit/timing/answers.hpp>

// The sections of timing_text(), without their headings; empty where the answer has nothing.
namespace trialfit::paper {

/// Only where there is a firing point.
[[nodiscard]] std::string firing_text(const timing::TimingAnswer& answer, const Style& style);
[[nodiscard]] std::string top_text(const timing::TimingAnswer& answer, const Style& style);
[[nodiscard]] std::string marks_text(const timing::TimingAnswer& answer, const Style& style);
/// Only where there is a slot.
[[nodiscard]] std::string slot_text(const timing::TimingAnswer& answer, const Style& style);
[[nodiscard]] std::string advance_text(const timing::TimingAnswer& answer, const Style& style);

}  // namespace trialfit::paper
