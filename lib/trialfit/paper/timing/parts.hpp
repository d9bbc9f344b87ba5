// SPDX-License-Identifier: MIT
#pragma once

#include <functional>
#include <string>
#include <trialfit/paper/text/style.hpp>
#include <trialfit/paper/text/table.hpp>
#include <trialfit/timing/answers.hpp>
#include <vector>

// The sections of timing_text(), without their headings; empty where the answer has nothing.
namespace trialfit::paper {

/// Only where there is a firing point.
[[nodiscard]] std::string firing_text(const timing::TimingAnswer& answer, const Style& style);
[[nodiscard]] std::string top_text(const timing::TimingAnswer& answer, const Style& style);
[[nodiscard]] std::string marks_text(const timing::TimingAnswer& answer, const Style& style);
/// Only where there is a slot.
[[nodiscard]] std::string slot_text(const timing::TimingAnswer& answer, const Style& style);
[[nodiscard]] std::string advance_text(const timing::TimingAnswer& answer, const Style& style);

// What the sections and the sheet share. Tables without rows where the answer has nothing.

/// How a length is set.
using LengthSetter = std::function<std::string(double)>;
/// With the decimals of the answer's unit.
[[nodiscard]] LengthSetter plain_lengths(const timing::TimingAnswer& answer);

/// The top by stops and by dwell, on the degree wheel.
[[nodiscard]] Table top_table(const timing::TimingAnswer& answer, const LengthSetter& length);
/// Degrees, arc and chord of the marks on the rim and the stator.
[[nodiscard]] Table offset_table(const timing::TimingAnswer& answer, const LengthSetter& length);
/// To which side of the top's mark the firing mark lies; empty where that is not known.
[[nodiscard]] std::string offset_side(const timing::TimingAnswer& answer);
/// Marks found on the rotor, held to the firing point, and what they come to.
[[nodiscard]] Table found_table(const timing::TimingAnswer& answer, const LengthSetter& length);
[[nodiscard]] std::string found_verdict(const timing::Marks& marks);
/// Only where there is a slot.
[[nodiscard]] Table slot_table(const timing::TimingAnswer& answer, const LengthSetter& length);
/// One a setting: degrees, piston and time at each speed.
[[nodiscard]] std::vector<Table> spark_tables(const timing::TimingAnswer& answer,
                                              const LengthSetter& length);
/// "0.01 mm is 0.05 deg": what a small division of a dial does at the firing point; empty where the
/// piston stands still there.
struct DialStep {
    std::string length;
    std::string degrees;
};
[[nodiscard]] DialStep dial_step(const timing::TimingAnswer& answer);

}  // namespace trialfit::paper
