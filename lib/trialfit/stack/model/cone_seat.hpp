// SPDX-License-Identifier: MIT
#pragma once

#include <trialfit/stack/messages.hpp>

namespace trialfit::stack {

/// A cone as the seat needs it: diameter at the gauge plane, diameter lost per length outboard, and
/// length outboard of the gauge plane. Nominal values, in the file's unit.
struct ConeShape {
    double dia = 0.0;
    double taper = 0.0;
    double length = 0.0;
};

/// How far outboard the hub's gauge plane lies of the shaft's, as derivatives at the nominal sizes:
/// offset = by_dia (D_shaft - D_hub) + by_length L, L being the length of the cone named by
/// `length_of_hub`. Equal tapers T: by_dia = 1/T, by_length = 0. Unequal:
/// the hub stops where the two meet first, at one end of their common length; at that end both
/// diameters are equal, which gives the offset.
struct ConeSeat {
    Bearing bearing = Bearing::whole;
    double by_dia = 0.0;
    double by_length = 0.0;
    bool length_of_hub = false;
    double offset = 0.0;
};

/// Seats `hub` on `shaft`. Tapers must be non-zero and of one sign (negative: narrowing inboard,
/// the mirror image). Tapers alike to 1e-12 count as equal. A diameter that nobody has measured is
/// not a number: on unequal tapers `by_dia` is then none either.
[[nodiscard]] ConeSeat seat_on_cone(const ConeShape& shaft, const ConeShape& hub);

}  // namespace trialfit::stack
