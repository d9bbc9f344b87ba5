// SPDX-License-Identifier: MIT
#pragma once

#include <array>
#include <optional>
#include <string_view>

// The tables of ISO 286-1:2010 as data, micrometres. What a textbook's reprint was held against is
// in tests/published/trade_limits.yaml; all else is from memory of the standard's tables.
namespace trialfit::trade::iso286 {

/// Upper ends of the 13 main size steps, mm.
inline constexpr std::array kMainSteps{3.0,   6.0,   10.0,  18.0,  30.0,  50.0, 80.0,
                                       120.0, 180.0, 250.0, 315.0, 400.0, 500.0};
/// Upper ends of the 25 intermediate size steps, mm.
inline constexpr std::array kFineSteps{
    3.0,   6.0,   10.0,  14.0,  18.0,  24.0,  30.0,  40.0,  50.0,  65.0,  80.0,  100.0, 120.0,
    140.0, 160.0, 180.0, 200.0, 225.0, 250.0, 280.0, 315.0, 355.0, 400.0, 450.0, 500.0};

using MainRow = std::array<double, kMainSteps.size()>;
using FineRow = std::array<double, kFineSteps.size()>;

/// Standard tolerance of a grade (-1 for IT01, 0 to 18) in a main step; nothing for other grades.
[[nodiscard]] std::optional<double> standard_tolerance_um(int grade, std::size_t main_step);

/// A shaft's fundamental deviation (es for a to h, ei for m to zc) by intermediate step;
/// nothing where the table is empty. Not for js, j and k, which go by grade.
[[nodiscard]] std::optional<double> shaft_deviation_um(std::string_view letter,
                                                       std::size_t fine_step);

/// ei of k for IT4 to IT7 (0 in the other grades).
[[nodiscard]] double k_deviation_um(std::size_t main_step);

/// ei of j5 to j8; nothing where the table is empty.
[[nodiscard]] std::optional<double> j_deviation_um(int grade, std::size_t main_step);

/// ES of J6 to J8; nothing for other grades.
[[nodiscard]] std::optional<double> hole_j_deviation_um(int grade, std::size_t main_step);

}  // namespace trialfit::trade::iso286
