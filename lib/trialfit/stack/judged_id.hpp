// SPDX-License-Identifier: MIT
#pragma once

#include <compare>
#include <cstddef>
#include <trialfit/job/part.hpp>
#include <variant>

// Which of the things that are judged something is: what two answers about one job are matched by,
// whatever the things are called.
namespace trialfit::stack {

/// A place on the axis: `beyond` outboard of a face.
struct Station {
    job::FaceRef face;
    double beyond = 0.0;

    [[nodiscard]] auto operator<=>(const Station&) const = default;
};

/// A check on a gap, an engagement or an overlap: an index into Job::checks.
struct CheckId {
    std::size_t index = 0;

    [[nodiscard]] auto operator<=>(const CheckId&) const = default;
};

/// A check on a radial gap: an index into Job::air_gaps.
struct AirGapId {
    std::size_t index = 0;

    [[nodiscard]] auto operator<=>(const AirGapId&) const = default;
};

/// What the program asks for by itself: an index into Model::automatic_checks().
struct ClampId {
    std::size_t index = 0;

    [[nodiscard]] auto operator<=>(const ClampId&) const = default;
};

/// An automatic clearance: the two ring ends that may meet. Each two places have one.
struct ClearanceId {
    Station inboard;
    Station outboard;

    [[nodiscard]] auto operator<=>(const ClearanceId&) const = default;
};

/// A radial gap: the two rings.
struct RadialId {
    job::RingRef inner;
    job::RingRef outer;

    [[nodiscard]] auto operator<=>(const RadialId&) const = default;
};

using JudgedId = std::variant<CheckId, AirGapId, ClampId, ClearanceId, RadialId>;

}  // namespace trialfit::stack
