// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <variant>
#include <vector>

// What `plan` says beside its figures, as data: lengths in the file's unit, names as the job file
// writes them. Its words are in paper/words/.
namespace trialfit::plan {

/// A face is not considered for a cut: it is `now` and must keep `keep`, and the lathe holds
/// ±`holds`.
struct NoRoomToCut {
    std::string face;
    double now = 0.0;
    double keep = 0.0;
    double holds = 0.0;
};

/// A ring is not considered for a skim, since the job asks for no radial gap.
struct NoRadialGapAsked {
    std::string ring;
};

/// A ring is not considered for a skim: what must remain leaves nothing to take off where the lathe
/// holds ±`holds`.
struct NoRoomToSkim {
    std::string ring;
    double holds = 0.0;
};

/// A part sits at a stated offset from a face, which cutting `cut` does not move.
struct OffsetStays {
    std::string part;
    std::string from;
    std::string cut;
};

/// No more than `most` shims go under a part whose shims state no count.
struct ShimCountTaken {
    std::string part;
    int most = 0;
};

/// A check's aim has no at_least to be measured by, and is not taken into account.
struct AimWithoutLeast {
    std::string check;
};

/// A check is not planned for, since nothing says how strong its threads are.
struct StrengthNotGiven {
    std::string check;
};

/// The shims under a part move no check with an aim, and so are not rounded.
struct NotRounded {
    std::string part;
};

/// The shims under a part move these checks, each with an aim.
struct SeveralAims {
    std::string part;
    std::vector<std::string> checks;
};

/// A part lies anywhere within `play` of what it is on, which takes up to half of that off a radial
/// gap; it may be centred by hand.
struct LiesLoose {
    std::string part;
    std::string on;
    double play = 0.0;
};

/// How far a tilted part leans was reckoned as things stand: a slightly cheaper plan may have been
/// passed over.
struct LeansAsItStands {};

/// A plan of that cost is not shown, since with its work done not every check holds.
struct PlanRefused {
    double cost = 0.0;
};

using Note = std::variant<NoRoomToCut, NoRadialGapAsked, NoRoomToSkim, OffsetStays, ShimCountTaken,
                          AimWithoutLeast, StrengthNotGiven, NotRounded, SeveralAims, LiesLoose,
                          LeansAsItStands, PlanRefused>;

}  // namespace trialfit::plan
