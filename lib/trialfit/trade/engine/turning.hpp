// SPDX-License-Identifier: MIT
#pragma once

namespace trialfit::trade {

/// Which way something turns, seen from outboard.
enum class Turning { clockwise, anticlockwise };

/// Advance that a curve adds at one speed, degrees of crank; negative where it retards.
struct CurvePoint {
    double rpm = 0.0;
    double degrees = 0.0;
};

}  // namespace trialfit::trade
