// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <string_view>
#include <trialfit/paper/document/document.hpp>
#include <trialfit/seat/answers.hpp>

namespace trialfit::paper {

/// The answer of `seat` in plain words, one paragraph without line breaks: "The cone holds 62 N m
/// at worst where 40 is needed: ..."
[[nodiscard]] std::string seat_headline(const seat::SeatAnswer& answer);

/// Whose the most allowed torque is: a finding in words, or a check's name in quotes with
/// `of_check` after it.
[[nodiscard]] std::string most_by_words(const seat::SeatAnswer& answer, std::string_view of_check);
/// Every finding, in the answer's order: what, needed, middle, worst case, unit, verdict.
[[nodiscard]] Table seat_figures(const seat::SeatAnswer& answer);
/// Where the limits of the nut's torque lie, as limits and never as a setting: "The cone needs 14.4
/// N m on the nut to hold 7 N m; 19.3 N m is the most allowed for ..."
[[nodiscard]] std::string seat_torque(const seat::SeatAnswer& answer);

/// The answer for people, headline first; every figure with where it comes from, the cautions and
/// what was not assessed at the end, every time.
[[nodiscard]] Document document_of(const seat::SeatAnswer& answer);

}  // namespace trialfit::paper
