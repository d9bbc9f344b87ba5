// SPDX-License-Identifier: MIT
// Timing marks: angles laid off on a diameter. Lengths in mm.
#pragma once

#include <cstddef>
#include <trialfit/trade/engine/turning.hpp>
#include <trialfit/trade/result.hpp>
#include <vector>

namespace trialfit::trade {

/// Offset of a mark by `degrees` on a diameter, both ways of measuring it. Plain geometry, signed
/// as the angle.
struct MarkOffset {
    double arc = 0.0;    ///< along the rim, as a strip of paper lies: d/2 * angle
    double chord = 0.0;  ///< straight across, as dividers or a caliper take it: d sin(angle/2)
};
[[nodiscard]] MarkOffset mark_offset(double dia, double degrees);

/// The angle of an arc on `dia` (> 0).
[[nodiscard]] double degrees_of_arc(double dia, double arc);

/// The other way round.
[[nodiscard]] Turning opposite(Turning turning);

/// Which way to turn the stator, if it carries the trigger, so that the spark comes earlier
/// (against the shaft's turning: the rotor meets it sooner) or later (with the shaft).
[[nodiscard]] Turning stator_turn_for_earlier(Turning shaft);
[[nodiscard]] Turning stator_turn_for_later(Turning shaft);

/// A mark out of several, and how far it is off.
struct NearestMark {
    std::size_t index = 0;
    double off_deg = 0.0;  ///< mark less wanted, -180..180
};
/// Which of `marks_deg` (degrees on the rotor, any turn) lies nearest to `wanted_deg`; the first
/// among equals. A reason where there are none.
[[nodiscard]] Result<NearestMark> nearest_mark(const std::vector<double>& marks_deg,
                                               double wanted_deg);

}  // namespace trialfit::trade
