// SPDX-License-Identifier: MIT
// Balance quality grades, for information: nothing here says that a rotor is balanced.
#pragma once

#include <array>
#include <trialfit/trade/result.hpp>

namespace trialfit::trade {

/// The grades G of ISO 21940-11 (formerly ISO 1940-1), mm/s, finest first (series from memory).
/// Flywheels are listed at 6.3 in the older published list.
inline constexpr std::array kBalanceGrades_mm_s{0.4,  1.0,  2.5,  6.3,   16.0, 40.0,
                                                100., 250., 630., 1600., 4000.};

/// Permissible unbalance of a rotor.
struct BalanceLimit {
    double eccentricity_um = 0.0;  ///< of the mass centre; the same number in g mm per kg
    double unbalance_g_mm = 0.0;   ///< of the whole rotor
    double unbalance_oz_in = 0.0;  ///< the same
    double force_n = 0.0;          ///< that this unbalance makes at the speed
};

/// e = G/w, U = e m. `grade_mm_s` any positive number (6.3 for G6.3). ISO 21940-11, formerly ISO
/// 1940-1. A reason where grade, speed or mass is not > 0.
[[nodiscard]] Result<BalanceLimit> balance_limit(double grade_mm_s, double rpm, double mass_kg);

/// Unbalance allowed in each of two planes, g mm.
struct PlaneShare {
    double left_g_mm = 0.0;
    double right_g_mm = 0.0;
};

/// Split of `unbalance_g_mm` between two planes on either side of the mass centre, which is
/// `left` mm from one and `right` mm from the other: U_L = U right/(left + right), each kept
/// between 30 % and 70 % (balancing machine manual). A reason where a distance is negative or both
/// are 0.
[[nodiscard]] Result<PlaneShare> two_plane_split(double unbalance_g_mm, double left, double right);

}  // namespace trialfit::trade
