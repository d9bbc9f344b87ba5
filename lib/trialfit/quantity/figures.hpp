// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <trialfit/quantity/units.hpp>

// Lengths as figures: how many decimals, and the one rounding that whatever is written into a file
// or told to a person goes by.
namespace trialfit::quantity {

/// Decimals that a length in `unit` is commonly read to: mm 2, in 4, um 0, thou 1.
[[nodiscard]] int usual_decimals(Unit unit);

/// `length` to the nearest figure with `decimals` decimals; halves go away from zero. A length that
/// is a figure but for rounding noise is that figure.
[[nodiscard]] double rounded(double length, int decimals);

/// `length` with up to `most` decimals and no trailing zeros, the point never a comma: "5.53".
[[nodiscard]] std::string plain(double length, int most = 9);

/// The same with its unit, rounded to what the unit is read to or one decimal finer: "5.21 mm".
[[nodiscard]] std::string told(double length, Unit unit);

}  // namespace trialfit::quantity
