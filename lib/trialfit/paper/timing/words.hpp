// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <string_view>
#include <trialfit/timing/answers.hpp>

// Words and figures that the printers of `timing` share.
namespace trialfit::paper {

/// "clockwise", "anticlockwise".
[[nodiscard]] std::string_view word(trade::Turning turning);
/// Degrees for a sentence: "17.2".
[[nodiscard]] std::string sentence_degrees(double degrees);
/// Degrees for a table: "17.22".
[[nodiscard]] std::string degrees(double degrees);
/// "17.2 degrees BTDC", "2.0 degrees ATDC", "the top": the trade's words for before and after the
/// top.
[[nodiscard]] std::string crank_place(double before_top_deg);
/// "4.3 degrees clockwise, seen from outboard", or "4.3 degrees against the shaft's turning" where
/// that is not known.
[[nodiscard]] std::string stator_turn(const timing::TimingAnswer& answer, double earlier_deg);
/// Decimals for this answer's lengths.
[[nodiscard]] int length_decimals(const timing::TimingAnswer& answer);

}  // namespace trialfit::paper
