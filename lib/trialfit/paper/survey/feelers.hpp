// SPDX-License-Identifier: MIT
#pragma once

#include <nlohmann/json_fwd.hpp>
#include <string>
#include <trialfit/paper/document/document.hpp>
#include <trialfit/paper/text/figures.hpp>
#include <trialfit/quantity/units.hpp>
#include <trialfit/survey/feelers/answers.hpp>
#include <vector>

namespace trialfit::paper {

/// "4 o'clock", "half past 4": the clock angle to the nearest half hour.
[[nodiscard]] std::string o_clock(double degrees);

/// How the lengths of one set of feeler readings are told.
[[nodiscard]] Lengths feeler_lengths(const survey::FeelersFound& found, quantity::Unit units);

/// The figures that the readings tell, as far as they do: mean, offset, eccentricity, ..., least
/// and greatest gap.
[[nodiscard]] Table feeler_table(const survey::FeelersFound& found, const Lengths& lengths);

/// What stands first: a reading out of step, how to even the gap up, whether any setting can do
/// what is asked. One paragraph each.
[[nodiscard]] std::vector<std::string> feeler_findings(const survey::FeelersFound& found,
                                                       const Lengths& lengths);
/// What the readings could not tell, and what to read so that they do. One paragraph each.
[[nodiscard]] std::vector<std::string> feeler_not_told(const survey::FeelersFound& found);

/// What is wrong with the feelers' readings, in one line; empty where nothing is.
[[nodiscard]] std::string feelers_wrong(const std::vector<survey::FeelersFound>& all);

/// One set of feeler readings, whole.
[[nodiscard]] Document feelers_section(const survey::FeelersFound& found, quantity::Unit units);

/// The same as data; lengths in the file's unit.
[[nodiscard]] nlohmann::ordered_json feelers_json(const survey::FeelersFound& found);

}  // namespace trialfit::paper
