// SPDX-License-Identifier: MIT
#include <trialfit/numerics/planner/hull.hpp>
#include <trialfit/numerics/planner/tolerances.hpp>

#include <algorithm>
#include <numeric>

namespace trialfit::numerics {

namespace {

std::vector<HullPoint> corners_of(const std::vector<HullPoint>& points) {
    std::vector<HullPoint> corners;
    for (const HullPoint& next : points) {
        if (!corners.empty() && next.thickness - corners.back().thickness < kSameLength) {
            if (next.value >= corners.back().value) continue;
            corners.pop_back();
        }
        while (corners.size() > 1) {
            const HullPoint& a = corners[corners.size() - 2];
            const HullPoint& b = corners.back();
            if ((b.value - a.value) * (next.thickness - a.thickness) <
                (next.value - a.value) * (b.thickness - a.thickness))
                break;
            corners.pop_back();
        }
        corners.push_back(next);
    }
    return corners;
}

double length(const std::vector<HullPoint>& corners, std::size_t edge) {
    return corners[edge + 1].thickness - corners[edge].thickness;
}

double slope(const std::vector<HullPoint>& corners, std::size_t edge) {
    return (corners[edge + 1].value - corners[edge].value) / length(corners, edge);
}

double line(const std::vector<HullPoint>& corners, std::size_t edge, double at) {
    return corners[edge].value + slope(corners, edge) * (at - corners[edge].thickness);
}

// Where there are too many edges, the outer ones and the longest: any set of the edges' lines lies
// under the points.
std::vector<std::size_t> edges_kept(const std::vector<HullPoint>& corners) {
    std::vector<std::size_t> edges(corners.size() - 1);
    std::iota(edges.begin(), edges.end(), std::size_t{0});
    if (edges.size() <= Hull::kSegments) return edges;
    std::swap(edges[1], edges.back());
    std::stable_sort(edges.begin() + 2, edges.end(), [&](std::size_t a, std::size_t b) {
        return length(corners, a) > length(corners, b);
    });
    edges.resize(Hull::kSegments);
    std::sort(edges.begin(), edges.end());
    return edges;
}

}  // namespace

Hull lower_hull(const std::vector<HullPoint>& points) {
    const std::vector<HullPoint> corners = corners_of(points);
    Hull hull;
    hull.start = corners.front().thickness;
    hull.value = corners.front().value;
    if (corners.size() == 1) return hull;
    const std::vector<std::size_t> edges = edges_kept(corners);
    double from = hull.start;
    for (std::size_t i = 0; i < edges.size(); ++i) {
        double to = corners.back().thickness;
        if (i + 1 < edges.size()) {
            const std::size_t a = edges[i];
            const std::size_t b = edges[i + 1];
            to = a + 1 == b ? corners[b].thickness
                            : from + (line(corners, a, from) - line(corners, b, from)) /
                                         (slope(corners, b) - slope(corners, a));
            to = std::clamp(to, from, corners.back().thickness);
        }
        hull.slope[i] = slope(corners, edges[i]);
        hull.length[i] = to - from;
        from = to;
    }
    return hull;
}

}  // namespace trialfit::numerics
