// SPDX-License-Identifier: MIT
// The sums of shim-only jobs, free of any model. All lengths in one unit, whichever.
//
// A job asks for a rule of rounding at the seat: `shims: {stock: [...], round: {way: down, step:
// 0.05}}`. The thickness wanted is then the one that brings the aim which the seat moves to its
// value; the stack is what the rule makes of it, in the fewest pieces.
#pragma once

#include <cstddef>
#include <optional>
#include <vector>

#include <trialfit/job/part.hpp>
#include <trialfit/numerics/planner/problem.hpp>

namespace trialfit::plan {

/// `length` (>= 0) brought to a multiple of `step` (> 0): at or below, at or above, the nearest
/// (halves down); by last_digit, after rounding to the nearest step, to one of 5 steps: a last
/// digit of 0 to 2 becomes 0, 3 to 7 becomes 5, 8 and 9 the next 0. A length within a millionth of
/// a step of a multiple counts as that multiple.
[[nodiscard]] double rounded(double length, job::RoundingWay way, double step);

/// What a rule brings to one and the same size: thicknesses from `least` to `most` beside it. Ends
/// that go to the next size lie a millionth of a step outside.
struct RoundedFrom {
    double least = 0.0;
    double most = 0.0;
    double grid = 0.0;  ///< the sizes are multiples of this
};
[[nodiscard]] RoundedFrom rounded_from(const job::Rounding& rounding);

/// What a stack's thickness must be: between the limits, near the aim where there is one.
struct StackWant {
    double least = 0.0;
    double greatest = 0.0;
    std::optional<double> aim;
};

/// The stack wanted where `room` is the float with no shims at all and the float left is to lie
/// between `least_float` and `greatest_float` (a preload is a negative float). Never below 0.
[[nodiscard]] StackWant stack_for_float(double room, double least_float, double greatest_float,
                                        std::optional<double> float_aim = {});

/// The room found by a trial: the stack fitted for it plus the float then measured. (Equals
/// thickness + float for any stack that leaves float.)
[[nodiscard]] double room_from_trial(double fitted, double measured_float);

/// The free thickness of a layer that gives when tightened, so that `needed` is left and `share` of
/// it has gone: needed * (1 + share), a half for common gaskets.
[[nodiscard]] double uncompressed(double needed, double share);

/// A stack picked from stock.
struct StackPick {
    std::vector<std::size_t> pieces;  ///< stock indices, ascending
    double thickness = 0.0;
    double half_width = 0.0;  ///< sum over the pieces
};

/// The stack nearest to the aim (without one: the fewest pieces) that is within the limits even
/// with the pieces' own half-widths at their worst; then the fewest pieces, then the thinner, then
/// file order. None where no stack fits. at_least and at_most count pieces.
[[nodiscard]] std::optional<StackPick> pick_stack(const std::vector<numerics::StockItem>& stock,
                                                  const StackWant& want, int at_least, int at_most);

}  // namespace trialfit::plan
