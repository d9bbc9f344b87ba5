// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <trialfit/paper/style.hpp>
#include <trialfit/paper/table.hpp>
#include <trialfit/seat/answers.hpp>

namespace trialfit::paper {

/// The answer of `seat` in plain words, one paragraph without line breaks: "The cone holds 62 N m
/// at worst where 40 is needed: ..."
[[nodiscard]] std::string seat_headline(const seat::SeatAnswer& answer);

/// Every finding, in the answer's order: what, needed, middle, worst case, unit, verdict; the row's
/// remark says where it comes from.
[[nodiscard]] Table seat_figures(const seat::SeatAnswer& answer);
/// Within which nut torques everything holds, and what ends the range: "From 14.4 N m (torque that
/// the cone holds) up to 19.3 N m (...)."
[[nodiscard]] std::string seat_torque(const seat::SeatAnswer& answer);

/// The answer for people, headline first; every figure with where it comes from, the cautions and
/// what was not assessed at the end, every time.
[[nodiscard]] std::string seat_text(const seat::SeatAnswer& answer, const Style& style);

/// Validates against schemas/seat.schema.json. Full double precision; what is not finite is null.
[[nodiscard]] std::string seat_json(const seat::SeatAnswer& answer);

}  // namespace trialfit::paper
