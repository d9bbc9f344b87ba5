// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <trialfit/paper/document/document.hpp>
#include <trialfit/paper/text/figures.hpp>
#include <trialfit/timing/answers.hpp>
#include <vector>

// The sections of the timing's document, without their headings; empty where the answer has
// nothing.
namespace trialfit::paper {

/// Only where there is a firing point.
[[nodiscard]] Document firing_section(const timing::TimingAnswer& answer);
[[nodiscard]] Document top_section(const timing::TimingAnswer& answer);
[[nodiscard]] Document marks_section(const timing::TimingAnswer& answer);
/// Only where there is a slot.
[[nodiscard]] Document slot_section(const timing::TimingAnswer& answer);
[[nodiscard]] Document advance_section(const timing::TimingAnswer& answer);

// What the sections and the sheet share. Tables without rows where the answer has nothing.

/// With the decimals of the answer's unit.
[[nodiscard]] Lengths plain_lengths(const timing::TimingAnswer& answer);

/// The top by stops and by dwell, on the degree wheel.
[[nodiscard]] Table top_table(const timing::TimingAnswer& answer, const Lengths& length);
/// Degrees, arc and chord of the marks on the rim and the stator.
[[nodiscard]] Table offset_table(const timing::TimingAnswer& answer, const Lengths& length);
/// To which side of the top's mark the firing mark lies; empty where that is not known.
[[nodiscard]] std::string offset_side(const timing::TimingAnswer& answer);
/// Marks found on the rotor, held to the firing point, and what they come to.
[[nodiscard]] Table found_table(const timing::TimingAnswer& answer, const Lengths& length);
[[nodiscard]] std::string found_verdict(const timing::Marks& marks);
/// The slot as seen from outboard with the screw in it, and what is to be filed; empty where the
/// answer does not say which way the stator turns, or how thick the screw is.
[[nodiscard]] Picture slot_picture(const timing::TimingAnswer& answer, const Lengths& length);
/// Only where there is a slot.
[[nodiscard]] Table slot_table(const timing::TimingAnswer& answer, const Lengths& length);
/// One a setting: degrees, piston and time at each speed.
[[nodiscard]] std::vector<Table> spark_tables(const timing::TimingAnswer& answer,
                                              const Lengths& length);
/// "0.01 mm is 0.05 deg": what a small division of a dial does at the firing point; empty where the
/// piston stands still there.
struct DialStep {
    std::string length;
    std::string degrees;
};
[[nodiscard]] DialStep dial_step(const timing::TimingAnswer& answer);

}  // namespace trialfit::paper
