// SPDX-License-Identifier: MIT
#pragma once

#include <array>
#include <string>
#include <string_view>
#include <trialfit/paper/start/letter.hpp>
#include <trialfit/quantity/units.hpp>
#include <vector>

// Kinds of job to begin from. Of each there is one source: a text with places for sizes, and what
// stands in each place, by letters. The file with invented sizes, the page to measure by and the
// questions at the terminal are all made of it.
namespace trialfit::paper {

struct StartKind {
    std::string_view name;
    /// One line for a list.
    std::string_view what;
    /// Of the job.
    std::string_view title;
    /// The job file with marks; fill.hpp says which.
    std::string_view text;
    /// What is at the inboard and the outboard end of the axis.
    std::array<std::string_view, 2> ends;
    /// In the order in which their marks first stand in the text.
    std::vector<StartLetter> letters;
    /// What a file of answers keeps of the template, for its first lines: "the stock of shims".
    std::string_view kept;
    /// How the whole is to be held while it is measured, in a few sentences.
    std::vector<std::string_view> before;
    /// What can hurt someone who measures.
    std::vector<std::string_view> care;
};

/// The first is the one for somebody who does not say which.
[[nodiscard]] const std::array<StartKind, 6>& start_kinds();

/// The commented job file with invented sizes that say so; `units` mm or inch.
[[nodiscard]] std::string start_template(const StartKind& kind, quantity::Unit units);

/// The kinds, one a source file.
[[nodiscard]] StartKind start_ignition();
[[nodiscard]] std::vector<StartLetter> ignition_letters();
[[nodiscard]] StartKind start_endfloat();
[[nodiscard]] StartKind start_impeller();
[[nodiscard]] StartKind start_spacer();
[[nodiscard]] StartKind start_cover();
[[nodiscard]] StartKind start_bearing();

}  // namespace trialfit::paper
