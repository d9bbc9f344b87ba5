// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <trialfit/draw/drawing.hpp>
#include <trialfit/draw/section/lettered.hpp>

namespace trialfit::draw {

/// The words at the ends of the axis.
struct AxisWords {
    std::string inboard;
    std::string outboard;
};

/// A picture with its letters, `width` mm wide and as high as it needs: lengths in rows above the
/// metal, diameters in columns beside it, their letters below the axis. Several parts have their
/// names beside them. The metal is at most `most_height` mm high. It states no scale.
[[nodiscard]] Drawing drawn(const Lettered& picture, const AxisWords& words, double width,
                            double most_height);

}  // namespace trialfit::draw
