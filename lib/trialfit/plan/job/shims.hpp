// SPDX-License-Identifier: MIT
// Rules of rounding for shims. All lengths in one unit, whichever.
//
// A job asks for a rule of rounding at the seat: `shims: {stock: [...], round: {way: down, step:
// 0.05}}`. The thickness wanted is then the one that brings the aim which the seat moves to its
// value; the stack is what the rule makes of it, in the fewest pieces.
#pragma once

#include <trialfit/job/part.hpp>

namespace trialfit::plan {

/// What a rule brings to one and the same size: thicknesses from `least` to `most` beside it. Ends
/// that go to the next size lie a millionth of a step outside, so that a length within that of a
/// multiple counts as the multiple. Down and up: to the multiple of the step at or below, at or
/// above; to the nearest: halves down; by the last digit: of the length rounded to the step, 0 to 2
/// become 0, 3 to 7 become 5, 8 and 9 the next 0.
struct RoundedFrom {
    double least = 0.0;
    double most = 0.0;
    double grid = 0.0;  ///< the sizes are multiples of this
};
[[nodiscard]] RoundedFrom rounded_from(const job::Rounding& rounding);

}  // namespace trialfit::plan
