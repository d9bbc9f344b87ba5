// SPDX-License-Identifier: MIT
#pragma once

#include <array>
#include <cstddef>
#include <vector>

namespace trialfit::numerics {

/// A convex function in a few straight segments from `start` on.
struct Hull {
    static constexpr std::size_t kSegments = 4;
    double start = 0.0;
    double value = 0.0;  ///< at the start
    std::array<double, kSegments> slope{};
    std::array<double, kSegments> length{};  ///< 0 where there are fewer segments
};

struct HullPoint {
    double thickness = 0.0;
    double value = 0.0;
};

/// A convex function under all points (ascending in thickness, at least one): their lower convex
/// hull (A. M. Andrew, Another efficient algorithm for convex hulls in two dimensions, Information
/// Processing Letters 9, 1979), or where that has too many edges, a function a little below it.
[[nodiscard]] Hull lower_hull(const std::vector<HullPoint>& points);

}  // namespace trialfit::numerics
