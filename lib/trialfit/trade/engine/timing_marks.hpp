// SPDX-License-Identifier: MIT
// Timing marks and the stator's slots: angles laid off on a diameter. Lengths in mm.
#pragma once

#include <cstddef>
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

/// The angle of an arc or a chord on `dia` (> 0). A chord longer than the diameter has none.
[[nodiscard]] double degrees_of_arc(double dia, double arc);
[[nodiscard]] Result<double> degrees_of_chord(double dia, double chord);

/// Which way something turns, seen from outboard.
enum class Turning { clockwise, anticlockwise };
[[nodiscard]] Turning opposite(Turning turning);

/// Which way to turn the stator, if it carries the trigger, so that the spark comes earlier
/// (against the shaft's turning: the rotor meets it sooner) or later (with the shaft).
[[nodiscard]] Turning stator_turn_for_earlier(Turning shaft);
[[nodiscard]] Turning stator_turn_for_later(Turning shaft);

/// A curved slot through which a screw holds the stator.
struct Slot {
    double dia = 0.0;        ///< of the circle on which the slot's middle line lies
    double length = 0.0;     ///< end to end along that circle, round ends included
    double screw_dia = 0.0;  ///< what fills it
};

/// Whether a slot lets the stator turn far enough.
struct SlotReach {
    double needed_deg = 0.0;
    double needed_arc = 0.0;
    double free_deg = 0.0;  ///< from where the screw stands to the slot's end that way
    double free_arc = 0.0;
    bool reaches = false;
    double short_arc = 0.0;  ///< to be filed, >= 0
};

/// Turning by |degrees| from where the screw stands at `share` of its free travel (0 = already at
/// the end turned to, 0.5 = in the middle, 1 = all before it). A reason where the slot's sizes are
/// not > 0, the screw does not go in, the slot is longer than its circle, or the share is not 0..1.
[[nodiscard]] Result<SlotReach> slot_reach(const Slot& slot, double degrees, double share);

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
