// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <trialfit/paper/json/parts.hpp>
#include <trialfit/paper/text/style.hpp>
#include <trialfit/quantity/units.hpp>
#include <trialfit/survey/feelers/answers.hpp>
#include <vector>

namespace trialfit::paper {

/// "4 o'clock", "half past 4": the clock angle to the nearest half hour.
[[nodiscard]] std::string o_clock(double degrees);

/// How one set of feeler readings is told: in which unit, with how many decimals.
struct FeelerWords {
    quantity::Unit units = quantity::Unit::mm;
    int decimals = 2;
};
[[nodiscard]] FeelerWords feeler_words(const survey::FeelersFound& found, quantity::Unit units);

/// One figure that the readings tell, in words.
struct FeelerFigure {
    std::string what;
    std::string is;
    std::string sd;
    std::string towards;
};
/// Mean, offset, eccentricity, ..., least and greatest gap, as far as they are told.
[[nodiscard]] std::vector<FeelerFigure> feeler_figures(const survey::FeelersFound& found,
                                                       const FeelerWords& words);

/// What stands first: a reading out of step, how to even the gap up, whether any setting can do
/// what is asked. One paragraph each.
[[nodiscard]] std::vector<std::string> feeler_findings(const survey::FeelersFound& found,
                                                       const FeelerWords& words);
/// What the readings could not tell, and what to read so that they do. One paragraph each.
[[nodiscard]] std::vector<std::string> feeler_not_told(const survey::FeelersFound& found);

/// What is wrong with the feelers' readings, in one line; empty where nothing is.
[[nodiscard]] std::string feelers_wrong(const std::vector<survey::FeelersFound>& all);

/// All sets of feeler readings, a section each; empty text where there are none.
[[nodiscard]] std::string feelers_text(const std::vector<survey::FeelersFound>& all,
                                       quantity::Unit units, const Style& style);

[[nodiscard]] Json feelers_json(const survey::FeelersFound& found);

}  // namespace trialfit::paper
