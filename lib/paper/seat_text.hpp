// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <trialfit/paper/style.hpp>
#include <trialfit/seat/answers.hpp>

namespace trialfit::paper {

/// The answer of `seat` in plain words, one paragraph without line breaks: "The cone holds 62 N m
/// at worst where 40 is needed: ..."
[[nodiscard]] std::string seat_headline(const seat::SeatAnswer& answer);

/// The answer for people, headline first; every figure with where it comes from, the cautions and
/// what was not assessed at the end, every time.
[[nodiscard]] std::string seat_text(const seat::SeatAnswer& answer, const Style& style);

/// Validates against schemas/seat.schema.json. Full double precision; what is not finite is null.
[[nodiscard]] std::string seat_json(const seat::SeatAnswer& answer);

}  // namespace trialfit::paper
