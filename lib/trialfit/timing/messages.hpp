// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <variant>

// What `timing` says beside its figures, as data; its words are in paper/words/.
namespace trialfit::timing {

/// What was asked, and what the section lacks to judge it by.
enum class NotJudged {
    slot_without_fires_now,  ///< whether the slot reaches
    slot_without_fire_at,    ///< the same
    screw_in_its_slot,       ///< how far it can go each way: its place is not given
    limits_without_gauge,    ///< whether the limits of the firing point are kept
};

enum class Remark {
    no_gauge,      ///< the piston height's error is left out
    no_plug_tilt,  ///< the gauge is taken to stand along the bore
    stop_holds_exactly,
    marks_without_fire_at,
    no_direction,  ///< which way the engine turns is not given
    screw_in_middle,
    slot_is_travel,      ///< the slot's length is taken as the screw's travel
    curve_goes_on_flat,  ///< beyond its first and last point
};

/// The firing point was read by another gauge than the section's, whose error counts.
struct ReadByOther {
    std::string gauge;
};

using Note = std::variant<Remark, ReadByOther>;

}  // namespace trialfit::timing
