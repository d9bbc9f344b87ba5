// SPDX-License-Identifier: MIT
#pragma once

#include <trialfit/paper/document/document.hpp>
#include <trialfit/paper/text/figures.hpp>
#include <trialfit/sheet/sheet.hpp>

// What the sheet says, section by section.
namespace trialfit::paper {

/// The work at the lathe, or why there is none; nothing where the answer has no plan.
[[nodiscard]] Document plan_section(const sheet::SheetAnswer& answer, const Lengths& lengths);

/// " What must remain of ... is NOT JUDGED ..." for each cut of the plan that is made by amount.
[[nodiscard]] std::string keeps_not_judged(const sheet::SheetAnswer& answer);

/// Trial-fit readings beside what they should be, and what the feelers tell.
[[nodiscard]] Document survey_section(const survey::SurveyAnswer& survey, const Lengths& lengths);

/// What nobody has judged, as a list of few words; less what the sheet has further up, where
/// `with_sections` says that it has sections of its own.
[[nodiscard]] Document not_assessed(const sheet::SheetAnswer& answer, bool with_sections);

/// Tightening, and the timing.
[[nodiscard]] Document seat_section(const seat::SeatAnswer& seat);
[[nodiscard]] Document timing_section(const timing::TimingAnswer& answer, const Lengths& lengths);

}  // namespace trialfit::paper
