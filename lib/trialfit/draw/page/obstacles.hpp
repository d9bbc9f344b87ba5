// SPDX-License-Identifier: MIT
#pragma once

#include <trialfit/draw/drawing.hpp>
#include <vector>

namespace trialfit::draw {

/// Whether the straight line from `a` to `b` has a point within the box.
[[nodiscard]] bool line_meets(const Spot& a, const Spot& b, const Box& box);

/// What a text must not stand on, of a drawing so far: lines of parts, and (`soft`) lines that may
/// be interrupted: of dimensions, leaders, axes.
class Obstacles {
public:
    /// `clip`: of what is drawn inside that clip; -1: of what is drawn on the page itself.
    explicit Obstacles(const Drawing& drawing, int clip = -1);

    /// Whether the box meets a text, a circle or a line; with `through_soft`, lines that may be
    /// interrupted do not count.
    [[nodiscard]] bool meets(const Box& box, bool through_soft) const;
    /// Whether a text stands on the way from `from` to `to`.
    [[nodiscard]] bool texts_on(const Spot& from, const Spot& to) const;

private:
    struct Segment {
        Spot a;
        Spot b;
    };
    std::vector<Segment> hard_;
    std::vector<Segment> soft_;
    std::vector<Box> boxes_;
    std::vector<Box> texts_;
};

}  // namespace trialfit::draw
