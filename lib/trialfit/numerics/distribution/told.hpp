// SPDX-License-Identifier: MIT
// Inside the room: the gate that every figure passes on its way out.
#pragma once

#include <cmath>
#include <stdexcept>

namespace trialfit::numerics {

/// `figure` itself; std::logic_error where it is no number. A figure that is no number is a fault
/// of the program and must never become a verdict: comparisons with it are all false.
inline double told(double figure) {
    if (std::isnan(figure)) throw std::logic_error("odds: a figure is not a number");
    return figure;
}

}  // namespace trialfit::numerics
