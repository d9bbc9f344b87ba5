// SPDX-License-Identifier: MIT
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <trialfit/job/part.hpp>
#include <variant>
#include <vector>

namespace trialfit::job {

/// The axial distance from `inboard` to `outboard`: outboard one minus inboard one; < 0 = they
/// foul.
struct GapOf {
    FaceRef inboard;
    FaceRef outboard;
};

/// The axial length over which two threads engage.
struct EngagementOf {
    ThreadRef one;
    ThreadRef other;
};

/// How much of ring `of`'s length the ring `by` spans.
struct OverlapOf {
    RingRef of;
    RingRef by;
};

/// The thread left free behind a nut that is home, or before a bolt's shank: from the inner end of
/// the whole turns of `onto` to the nut's inner end where its seat's faces meet. <= 0 = it runs out
/// of thread before it clamps. Only the program asks for it (stack/clearance/clamping.hpp).
struct ClampOf {
    ThreadRef screwed;  ///< the thread of the part that is screwed home
    ThreadRef onto;
    bool nut = true;  ///< whether the part screwed home has the internal thread

    [[nodiscard]] bool operator==(const ClampOf&) const = default;
};

/// What a limit is counted in. `length`: the file's unit. `share`: of the length of the ring `of`,
/// 0 to 1. `diameters`, `pitches`: of the thread. `strength`: the engagement that develops the
/// external thread's full strength (value unused).
enum class LimitIn { length, share, diameters, pitches, strength };

struct Limit {
    double value = 0.0;
    LimitIn in = LimitIn::length;
    /// It must be passed, not merely reached.
    bool more_than = false;
    std::string written;
    Place at;
};

/// A requirement on a gap, an engagement or an overlap. At least one of the two limits is given.
struct Check {
    std::string name;
    Place at;
    std::variant<GapOf, EngagementOf, OverlapOf, ClampOf> of;
    std::optional<Limit> at_least;
    std::optional<Limit> at_most;
    /// The value that a plan's shims are set to; its cuts come near it where that costs no more.
    std::optional<Limit> aim;
};

/// A requirement on the radial gap between two rings, one nested in the other: the least gap round
/// the turn must be `at_least`, the greatest `at_most`. At least one of the two is given.
struct AirGap {
    std::string name;
    Place at;
    RingRef one;
    RingRef other;
    std::optional<Limit> at_least;
    std::optional<Limit> at_most;
};

/// A distance measured with some of the parts trial-fitted: `to` minus `from`.
struct Reading {
    std::string name;
    Place at;
    FaceRef from;
    FaceRef to;
    Given is;
    /// Parts fitted when it was taken (indices into Job::parts, rising); all where empty.
    std::vector<PartId> fitted;
    Pushed pushed = Pushed::not_stated;
    /// The two faces that touched instead of the seat, where the reading says so: inboard,
    /// outboard.
    std::optional<GapOf> touching;
    /// How many entries of the record had been made when it was taken: 0 for the file's own
    /// readings, which are about the parts as they came.
    std::size_t entries = 0;
};

}  // namespace trialfit::job
