// SPDX-License-Identifier: MIT
#pragma once

#include <vector>

// The section above the axis of solids of revolution: regions of the plane (axial position,
// radius). Lengths in whatever unit the caller keeps to; + z is outboard.
namespace trialfit::draw {

struct Point {
    double z = 0.0;
    double r = 0.0;

    [[nodiscard]] bool operator==(const Point&) const = default;
};

/// Closed: its last point joins its first. Several together bound a region by the even-odd rule.
using Loop = std::vector<Point>;

struct Line {
    Point from;
    Point to;
};

/// Metal between two straight flanks: radii inner..outer at z0 and at z1, z0 < z1.
struct Solid {
    double z0 = 0.0;
    double z1 = 0.0;
    double inner0 = 0.0;
    double inner1 = 0.0;
    double outer0 = 0.0;
    double outer1 = 0.0;
    bool unsure = false;  ///< nothing measured says where it begins, or ends
};

/// A solid of one bore and one outside radius.
[[nodiscard]] Solid straight(double z0, double z1, double inner, double outer);

/// Solids as one piece of metal.
struct Union {
    /// The boundary, metal on the left of each loop's direction seen with z to the right, r up.
    std::vector<Loop> outline;
    /// Where solids of the piece meet or overlap: their edges inside the metal.
    std::vector<Line> seams;
    /// The metal as solids that do not overlap, from inboard to outboard.
    std::vector<Solid> pieces;
};
[[nodiscard]] Union united(const std::vector<Solid>& solids);

/// Where both regions are metal, as pieces that do not overlap.
[[nodiscard]] std::vector<Solid> common(const Solid& one, const Solid& other);

/// The length of a straight line that lies in the solid, or within `pad` (>= 0) of it.
[[nodiscard]] double length_within(const Line& line, const Solid& solid, double pad);

/// The four corners.
[[nodiscard]] Loop loop_of(const Solid& solid);

/// `loop` moved outboard by `by`.
[[nodiscard]] Loop moved(const Loop& loop, double by);

}  // namespace trialfit::draw
