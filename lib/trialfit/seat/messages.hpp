// SPDX-License-Identifier: MIT
#pragma once

#include <optional>
#include <string>
#include <trialfit/job/validity/warnings.hpp>
#include <trialfit/quantity/units.hpp>
#include <trialfit/stack/messages.hpp>
#include <variant>
#include <vector>

// What `seat` says beside its figures, as data; its words are in paper/words/. Names are as the job
// file writes them.
namespace trialfit::seat {

/// What is found.
enum class FindingId {
    cone_torque,    ///< that the cone holds
    preload,        ///< of the nut on the hub
    thread_stress,  ///< tension and torsion
    bolt_strip,     ///< load on the external thread, of what strips it
    nut_strip,      ///< load on the internal thread, of what strips it
    nut_proof,      ///< load on the nut, of its proof load
    hub_stress,     ///< equivalent, at the bore
    hub_hoop,
    cone_pressure,
    draw_up,   ///< along the axis
    pull_off,  ///< force to pull the hub off, the nut slack
    contact,   ///< length of the cone in contact
    engaged,   ///< whole thread
    thread_left,
    key_room,   ///< over the key; less than 0 holds the hub off
    key_entry,  ///< the same of slots parallel to the axis: less than 0, it does not go in
    spinning_hoop,
};

/// The tapers differ, so that the hub touches at one end only and can rock.
struct TouchesAtOneEnd {
    std::string hub;
    bool small_end = false;  ///< else at the large one
};

using Warning = std::variant<job::Warning, TouchesAtOneEnd>;

/// What does not come home.
enum class Unseated {
    hub,      ///< the hub itself
    carried,  ///< what sits on the hub, by something that does not
    on_hub,   ///< what sits on the hub, by another face than that of its seat
};

/// What a hub's way home ends at before its cone, or may end at where that is in doubt or stands
/// on sizes that nobody has measured.
struct LandsFirst {
    std::string outboard;
    std::string inboard;
    std::optional<double> by;  ///< by how much it then stands off, or may; nothing if unmeasured
    quantity::Unit units = quantity::Unit::mm;
    std::string part;  ///< the part that does not seat; empty where it is only in doubt
    Unseated held = Unseated::hub;
};

/// A part that turns with the hub and is not in the inertia.
using stack::NotCounted;

/// Something that is not stated, and so not judged.
enum class NotStated {
    nut_torque,         ///< what it does
    needed_torque,      ///< whether the cone holds enough
    draw_up_materials,  ///< how far the nut draws the hub home
    spinning_material,  ///< hoop stress at speed
};

/// A friction that is not stated: whether the cone holds is known by a guess alone.
struct FrictionNotStated {
    stack::DrawUpLacks which = stack::DrawUpLacks::cone_friction;
};

/// What an acceleration asks of the cone is known in part only.
struct NeededInPart {
    NotCounted for_want_of;
};

/// The hub's stress has no limit.
struct HubNotJudged {
    enum class Why { no_ring_round_cone, no_material, no_yield_point, yield_not_known };
    std::string hub;
    Why why = Why::no_material;
    std::string material;  ///< of the last two
};

/// Nothing says how strong the external thread is.
struct BoltNotJudged {
    std::string thread;
};

/// Stripping is not judged, since nothing says how strong one of the threads is.
struct StripNotJudged {
    stack::ThreadStrengthNotKnown why;
};

/// Nothing is known of a nut's class on its thread.
struct NutNotJudged {
    std::string property_class;
    std::string form;
};

/// Figures that hang on lengths which nobody has measured and no reading gives; they are left out.
struct LengthsOpen {
    std::vector<FindingId> figures;
};

using NotJudged =
    std::variant<NotStated, FrictionNotStated, NeededInPart, HubNotJudged, BoltNotJudged,
                 StripNotJudged, NutNotJudged, LengthsOpen, LandsFirst>;

enum class Remark {
    bears_at_one_end,     ///< what the figures make of a hub whose taper differs
    lets_go_by_itself,    ///< at the least friction, once the nut slackens
    both_torques_stated,  ///< an engine torque and an acceleration
    readings_bind,        ///< cuts are told of the sizes as written
    readings_set_aside,   ///< all figures are
    tighten_repeatedly,   ///< and read the stand-off again
};

using Note = std::variant<Remark, NotCounted>;

enum class NotAssessed {
    burst_and_speed,
    balance,
    heat,
    fatigue,
    evenness,    ///< how even the contact is
    stays_tight  ///< whether the nut does
};

}  // namespace trialfit::seat
