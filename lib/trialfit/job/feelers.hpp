// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <trialfit/job/part.hpp>
#include <vector>

// Readings of a radial gap by feeler, at clock positions round it. The clock is that seen from
// outboard, looking at the parts along the axis: angles in degrees from 12 o'clock, clockwise.
// Lengths in the file's unit.
namespace trialfit::job {

/// One leaf tried at one place. `least` and `most` are alike where the file gives one figure, and
/// otherwise the leaf that goes in and the leaf that does not.
struct FeelerGap {
    Place at;
    double clock_deg = 0.0;
    double least = 0.0;
    double most = 0.0;
};

/// Readings made without turning the turning part.
struct FeelerRound {
    Place at;
    /// Where the turning part's mark stood, on the same clock; `rotor_said` where the file says so.
    double rotor_deg = 0.0;
    bool rotor_said = false;
    /// The height: `below` (>= 0) inboard of a face. No face where the file does not say.
    std::optional<FaceRef> height{};
    double below = 0.0;
    std::vector<FeelerGap> gaps;
};

/// All that was read by one feeler gauge between two rings, one still and one turning.
struct Feelers {
    std::string name;
    Place at;
    RingRef still;
    RingRef turning;
    /// Its half-width is at least 1e-9.
    GaugeId gauge;
    std::vector<FeelerRound> rounds;
};

}  // namespace trialfit::job
