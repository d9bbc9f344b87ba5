// SPDX-License-Identifier: MIT
#pragma once

#include <functional>
#include <map>
#include <string>
#include <string_view>
#include <trialfit/paper/start/start.hpp>

// A kind's text with its marks filled in. Marks:
//   {{A}}  {{A from back}}   the size of letter A, and words behind it; quotes where it needs them
//   {{-A from back}}         the same on the inboard side: with its sign turned
//   {{=0.03}}                a length of the template, in mm
//   {{units}} {{title}} {{head}}
//   {{?name}} {{+name}}      begins each line of a section, commented out where it is not answered;
//                            in the template the first kind is commented out, the second stands
namespace trialfit::paper {

/// Letter to the size in words; none, or an empty one, where nothing was answered.
using StartAnswers = std::map<std::string, std::string, std::less<>>;

/// What goes into the places.
struct Filling {
    quantity::Unit units = quantity::Unit::mm;
    /// None: the template, with invented sizes.
    const StartAnswers* answers = nullptr;
    /// Every section, whether or not it is answered.
    bool all_sections = false;
};

/// The job file.
[[nodiscard]] std::string filled(const StartKind& kind, const Filling& with);

/// A size of the template in `units`: "8.00 by caliper" -> "0.315 by caliper", to 0.001 in, or
/// 0.0001 where the millimetres have three decimals or the inches begin there.
[[nodiscard]] std::string in_units(std::string_view millimetres, quantity::Unit units);

/// `words` with their lengths, {{=0.5}} as above, in `units`.
[[nodiscard]] std::string with_lengths(std::string_view words, quantity::Unit units);

/// The invented size of a letter in `units`.
[[nodiscard]] std::string invented(const StartLetter& letter, quantity::Unit units);

/// A size in words with its sign turned: "7.00 by caliper" -> "-7.00 by caliper".
[[nodiscard]] std::string turned_sign(std::string_view words);

}  // namespace trialfit::paper
