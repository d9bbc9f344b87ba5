// SPDX-License-Identifier: MIT
// What warming does to lengths that are free, held, or tied together. Lengths in mm, temperature
// changes in K, expansions per K, stresses in MPa (compression positive where a bar is kept from
// growing). Linear expansion: Hooke's law and alpha L dT, any textbook of strength of materials.
#pragma once

#include <trialfit/trade/result.hpp>

namespace trialfit::trade {

/// Free growth of `length`: alpha L dT, negative when cooled.
[[nodiscard]] double thermal_growth(double length, double expansion_per_k, double warming_k);

/// Warming at which `dia` has grown by `growth`, to slip a hub on: growth / (alpha d).
[[nodiscard]] double warming_for_growth_k(double growth, double dia, double expansion_per_k);

/// Stress of a bar between walls that give way by `room` mm in all: E (alpha L dT - room) / L, and
/// 0 while it has room to grow. length > 0, room >= 0.
[[nodiscard]] double held_bar_stress_mpa(double length, double expansion_per_k, double warming_k,
                                         double modulus_mpa, double room);

/// The room that leaves a bar at `stress_mpa` after `warming_k`: alpha L dT - stress L / E.
[[nodiscard]] double room_for_stress(double length, double expansion_per_k, double warming_k,
                                     double modulus_mpa, double stress_mpa);

/// One of two bars tied together at both ends.
struct TiedBar {
    double area_mm2 = 0.0;
    double modulus_mpa = 0.0;
    double expansion_per_k = 0.0;
};

/// What tying does; stresses are magnitudes, opposite in sign.
struct TiedStress {
    double more_mpa = 0.0;  ///< in the bar that wants to grow more: compression when warmed
    double less_mpa = 0.0;  ///< in the other: tension when warmed
    double strain = 0.0;    ///< growth of both per length
};

/// Two bars of equal length tied together, warmed by `warming_k`: equal forces, equal growth.
/// A reason where an area or modulus is not > 0, or `less` expands more.
[[nodiscard]] Result<TiedStress> tied_bars(const TiedBar& more, const TiedBar& less,
                                           double warming_k);

}  // namespace trialfit::trade
