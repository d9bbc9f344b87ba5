// SPDX-License-Identifier: MIT
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <trialfit/draw/section/section.hpp>
#include <trialfit/job/complaint.hpp>
#include <trialfit/odds/answers.hpp>
#include <trialfit/paper/text/style.hpp>
#include <trialfit/plan/answers.hpp>
#include <trialfit/seat/answers.hpp>
#include <trialfit/sheet/sheet.hpp>
#include <trialfit/spin/answers.hpp>
#include <trialfit/stack/answers.hpp>
#include <trialfit/survey/answers.hpp>
#include <trialfit/timing/answers.hpp>
#include <variant>
#include <vector>

// Every answer printed: as text for people, and as JSON for programs.
namespace trialfit::paper {

/// Complaints as text, in their order, each
///
///     FILE:LINE:COL: error: FAULT; MEND
///       the line of the source
///           ^
///
/// or `FILE: error: FAULT; MEND` where the complaint has no place. `source` is the text that was
/// read (UTF-8, with or without byte order mark, any line ends). Lines over 76 columns are cut to a
/// window round the caret; nothing of the source can move the cursor. More than 200 complaints are
/// counted, not printed; a count closes the text where there are more than 3.
[[nodiscard]] std::string complaints_text(const job::Complaints& complaints, std::string_view file,
                                          std::string_view source, const Style& style);

// Texts: the answer in plain words first, then its figures, rounded, the unit stated once, then
// what was not judged and the cautions. Within the style's width; a brief one is without its
// details. Nothing in them can move the cursor or colour the terminal but the style.

/// Of very many clearances the tightest, unless `all_rows` are asked for. `cheapest`: what the
/// planner makes of the job, where that is known already.
[[nodiscard]] std::string check_text(const stack::CheckAnswer& answer, const Style& style,
                                     const plan::PlanAnswer* cheapest = nullptr);
/// Each size that the figure stands on, biggest contributor first. Chains of more than 60 sizes are
/// cut short; JSON has them whole.
[[nodiscard]] std::string why_text(const stack::WhyAnswer& answer, const Style& style);
/// `check`: of the same job by the same options. Failures rarer than 1 in a million are not told
/// apart.
[[nodiscard]] std::string odds_text(const stack::CheckAnswer& check, const odds::OddsAnswer& answer,
                                    const Style& style);
/// The work at the lathe, then every check before and after.
[[nodiscard]] std::string plan_text(const plan::PlanAnswer& answer, const Style& style);
/// Each reading against what the rest says, the suspects, what to measure next.
[[nodiscard]] std::string survey_text(const survey::SurveyAnswer& answer, const Style& style);
/// Every figure with where it comes from.
[[nodiscard]] std::string seat_text(const seat::SeatAnswer& answer, const Style& style);
/// `cheapest`: the cheapest plan of the job, where it was looked for: what it mends of the reasons
/// for a weak spark.
[[nodiscard]] std::string spin_text(const spin::SpinAnswer& answer, const Style& style,
                                    const plan::PlanAnswer* cheapest = nullptr);
/// What the job says nothing about is left out.
[[nodiscard]] std::string timing_text(const timing::TimingAnswer& answer, const Style& style);

// JSON: indented, ended by a line end, valid against the file of schemas/ that has the name of the
// command. Lengths in the file's unit, inertia in kg m2, energy in J, in full double precision;
// a figure that nobody can know is null.

/// schemas/check.schema.json
[[nodiscard]] std::string check_json(const stack::CheckAnswer& answer);
/// schemas/why.schema.json
[[nodiscard]] std::string why_json(const stack::WhyAnswer& answer);
/// What check_json() gives, with the odds added to each finding, and `all`;
/// schemas/odds.schema.json.
[[nodiscard]] std::string odds_json(const stack::CheckAnswer& check,
                                    const odds::OddsAnswer& answer);
/// schemas/plan.schema.json
[[nodiscard]] std::string plan_json(const plan::PlanAnswer& answer);
/// schemas/survey.schema.json
[[nodiscard]] std::string survey_json(const survey::SurveyAnswer& answer);
/// schemas/seat.schema.json
[[nodiscard]] std::string seat_json(const seat::SeatAnswer& answer);
/// schemas/spin.schema.json
[[nodiscard]] std::string spin_json(const spin::SpinAnswer& answer);
/// schemas/timing.schema.json
[[nodiscard]] std::string timing_json(const timing::TimingAnswer& answer);

// Pages and drawings.

/// How a sheet is set.
struct SheetStyle {
    /// Standing paper that it is printed on, mm.
    double width = 210.0;
    double height = 297.0;
    std::string paper = "A4";
    /// Lengths in inches beside the file's unit.
    bool inches = false;
};
/// The sheet as one HTML page: no script, nothing fetched, the section inline; prints on the
/// style's paper without a cut table row, and reads at the width of a phone.
[[nodiscard]] std::string sheet_html(const sheet::SheetAnswer& answer, const SheetStyle& style);
/// The same in Markdown with tables, without the section.
[[nodiscard]] std::string sheet_markdown(const sheet::SheetAnswer& answer, const SheetStyle& style);

/// Who drew it and when, for the title block; empty fields stay empty there.
struct DrawnBy {
    std::string who{};
    std::string date{};
};
/// The section above the axis of a job as SVG 1.1, on a page of its own, with its title block (ISO
/// 7200); of two states, before and after, one above the other. `scale`: millimetres on paper for
/// one in the engine; nothing for the largest that goes on the page. Too large: what the page would
/// have to measure.
[[nodiscard]] std::variant<std::string, draw::TooLarge> section_svg(
    const std::vector<draw::Section>& states, const draw::PageSize& page,
    std::optional<double> scale, const DrawnBy& by = {});

}  // namespace trialfit::paper
