// SPDX-License-Identifier: MIT
#pragma once

#include <cmath>
#include <trialfit/draw/section/shapes.hpp>
#include <vector>

namespace trialfit::testing {

/// Area enclosed, >= 0, by the even-odd rule where no loops cross.
inline double area(const std::vector<draw::Loop>& loops) {
    double twice = 0.0;
    for (const draw::Loop& loop : loops) {
        for (std::size_t i = 0; i < loop.size(); ++i) {
            const draw::Point& a = loop[i];
            const draw::Point& b = loop[(i + 1) % loop.size()];
            twice += a.z * b.r - b.z * a.r;
        }
    }
    return std::abs(twice) / 2.0;
}

}  // namespace trialfit::testing
