// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <trialfit/draw/drawing.hpp>
#include <vector>

namespace trialfit::draw {

/// The slot that a stator turns by, at 12 o'clock as seen from outboard and drawn straight. Lengths
/// along the slot, all in one unit. To the left of the screw is what lets the stator turn
/// clockwise.
struct SlotView {
    double left = 0.0;   ///< free on that side, >= 0
    double right = 0.0;  ///< likewise
    double screw = 0.0;  ///< its diameter, > 0
    /// To be filed so that the stator gets as far as it needs to; 0 on both sides where it gets
    /// there.
    double file_left = 0.0;
    double file_right = 0.0;
};

struct SlotWords {
    std::vector<std::string> left;   ///< lines over the room on that side
    std::vector<std::string> right;  ///< likewise
    std::string file;                ///< under what is to be filed
};

/// The picture, `width` mm wide and as high as it needs. It states no scale.
[[nodiscard]] Drawing slot_drawing(const SlotView& view, const SlotWords& words, double width);

}  // namespace trialfit::draw
