// SPDX-License-Identifier: MIT
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <trialfit/job/validity/warnings.hpp>
#include <trialfit/quantity/units.hpp>
#include <trialfit/trade/result.hpp>
#include <utility>
#include <variant>
#include <vector>

// What the stack's answers say beside their figures, as data: each kind of message with its figures
// and names, lengths in the file's unit, names as the job file writes them. Their words are in
// paper/words/.
namespace trialfit::stack {

// What changes an answer and stands before it.

/// A cone as the job writes it.
struct ConeWritten {
    std::string name;
    std::string taper;
};

/// Where a hub bears on unequal tapers: which end of which cone. `whole`: equal tapers, all along.
enum class Bearing { whole, hub_large_end, shaft_large_end, hub_small_end, shaft_small_end };

/// The tapers of a hub and its shaft differ, so that the hub bears at one end only and can rock.
struct TapersDiffer {
    ConeWritten hub;
    ConeWritten shaft;
    Bearing bearing = Bearing::whole;
};

/// A part stood off its seat at the last trial fit.
struct StoodOff {
    /// The two faces that held it off, or of which it is the tightest pair.
    struct Holding {
        std::string own;
        std::string against;
        bool stated = false;  ///< the file states it; else it is the tightest pair
    };
    std::string part;
    double by = 0.0;
    quantity::Unit units = quantity::Unit::mm;
    std::string reading;
    std::optional<Holding> held{};
};

/// By RSS it holds, and the odds, which a later floor has worked out, say that it often fails.
struct OftenFails {
    std::string name;
    double one_in = 0.0;   ///< it fails once in so many
    std::size_t more = 0;  ///< others of which the same is true
};

/// By their diameters a hub's cone and its shaft's have no length in common.
struct ConesMiss {
    std::string hub;          ///< its cone: "rotor.bore"
    std::string shaft;        ///< likewise
    bool too_narrow = false;  ///< the hub does not go on; else it slides over the whole cone
    bool surely = false;      ///< at nominal; else at the bad limits only
};

/// A key may be higher than its room by `most`, in slots parallel to the axis.
struct KeyMayNotEnter {
    std::string part;
    double most = 0.0;
    double excess = 0.0;  ///< at nominal; above 0 it does not enter
};

/// A key is higher than its room by `excess` and holds its hub off its cone by `stand_off`.
struct KeyHoldsOff {
    std::string part;
    double excess = 0.0;
    double stand_off = 0.0;
};

/// The same at the bad limits only.
struct KeyMayHoldOff {
    std::string part;
    double excess = 0.0;
    double stand_off = 0.0;
};

using Warning = std::variant<job::Warning, TapersDiffer, StoodOff, OftenFails, KeyMayNotEnter,
                             KeyHoldsOff, KeyMayHoldOff, ConesMiss>;

// Facts found on the way.

/// Positions that the file gives more than once, adjusted by least squares.
struct GivenMoreThanOnce {
    std::size_t positions = 0;
};

/// Sizes are adjusted by so many of the file's readings.
struct AdjustedByReadings {
    std::size_t readings = 0;
};

/// So many readings of the file are set aside.
struct ReadingsSetAside {
    std::size_t readings = 0;
};

/// The first `entries` of the record are in force, the last of them of `date`.
struct RecordInForce {
    std::size_t entries = 0;
    std::size_t of = 0;
    std::string date;
};

/// The file gives no clearance between turning and still parts.
struct NoRunningClearance {};

/// Parts whose seat has an offset; warm, it is taken to grow as the part sat against does.
struct OffsetGrowsWithSeat {
    std::vector<std::string> parts;
};

/// Parts on a cone; warm, they are taken to follow their nut.
struct FollowsNut {
    std::vector<std::string> parts;
};

/// Parts with more than one seat; warm, they are taken to follow the first.
struct FollowsFirstSeat {
    std::vector<std::string> parts;
};

/// Worst case and RSS take several eccentricities or tilts in their worst directions.
struct WorstDirections {};

using Note = std::variant<KeyMayNotEnter, KeyHoldsOff, KeyMayHoldOff, GivenMoreThanOnce,
                          AdjustedByReadings, ReadingsSetAside, RecordInForce, NoRunningClearance,
                          OffsetGrowsWithSeat, FollowsNut, FollowsFirstSeat, WorstDirections>;

// Why a figure is not judged.

/// In a state, nothing says how far these parts grow.
struct GrowthNotKnown {
    struct Of {
        std::string part;
        std::string material;

        [[nodiscard]] bool operator==(const Of&) const = default;
    };
    std::string state;
    std::vector<std::string> no_material;  ///< parts that name none
    std::vector<Of> unknown;               ///< parts whose material has no expansion

    [[nodiscard]] bool operator==(const GrowthNotKnown&) const = default;
};

/// Nothing says how strong the metal of a thread is.
struct ThreadStrengthNotKnown {
    std::string thread;

    [[nodiscard]] bool operator==(const ThreadStrengthNotKnown&) const = default;
};

/// It stands on sizes that nobody has measured and no reading fixes, by their labels ("plate.front
/// from plate.back").
struct LeftOpen {
    std::vector<std::string> alone;  ///< each of which alone would fix it, in the file's order
    /// Where none would: what it stands on. Empty, too, where a lever of its does.
    std::vector<std::string> all;

    [[nodiscard]] bool operator==(const LeftOpen&) const = default;
};

using NotJudgedFor = std::variant<GrowthNotKnown, ThreadStrengthNotKnown, LeftOpen, trade::Reason>;

/// What was asked and could not be judged.
struct NotJudged {
    enum class Of { clearances, radial_gaps, check };
    Of of = Of::check;
    std::string check;  ///< its name; empty for the others
    NotJudgedFor why;

    [[nodiscard]] bool operator==(const NotJudged&) const = default;
};

/// A part that turns and is not in the inertia.
struct NotCounted {
    enum class Lacks { rings, lengths, density };
    std::string part;
    Lacks lacks = Lacks::density;

    [[nodiscard]] bool operator==(const NotCounted&) const = default;
};

// What is not assessed.

/// Something that a radial gap hangs on and the file does not give.
struct NotGiven {
    enum class What { centring, runout, bore_limits, outside_limits };
    What what = What::centring;
    std::string of;  ///< the part, or the ring: "rotor", "rotor.magnets"

    [[nodiscard]] bool operator==(const NotGiven&) const = default;
};

/// What the stack leaves out as a whole.
enum class LeftOut {
    burst_and_speed,     ///< burst strength and safe speed of the rotor
    balance,             ///< of what turns
    reading_agreement,   ///< whether the readings agree with the sizes
    radial,              ///< radial gaps, runout, centring and tilt
    tilt_off_face_gaps,  ///< what tilt takes off a check's gap between two faces
    heat,                ///< all of it
    heat_along_parts,    ///< and plays when warm
    draw_up_with_heat,   ///< both at once
};

/// What another answer judges: with the sections of this file where `asked`.
struct ElsewhereJudged {
    enum class By { seat, timing, spin, survey };
    By by = By::seat;
    bool asked = true;
};

/// Radial gaps for want of these, which are taken as none.
struct RadialNotGiven {
    std::vector<NotGiven> missing;
};

/// Parts that state no face runout, so that they are taken as square to the axis.
struct TakenSquare {
    std::vector<std::string> parts;
};

/// Registers whose clearance is taken cold, since no diameter of the fit is given.
struct TakenCold {
    struct Fit {
        std::string part;
        std::string on;
    };
    std::vector<Fit> fits;
};

/// Why it is not known how far a nut draws a hub home.
enum class DrawUpLacks {
    seat_section,
    nut_torque,
    thread_friction,
    under_nut_friction,
    cone_friction,
    contact,   ///< nobody has measured how far hub and shaft bear on each other
    nut_face,  ///< nor what the nut bears on
    ring_round_cone,
    materials,
};
using DrawUpUnknown = std::variant<DrawUpLacks, job::Complaint>;

/// How far the nut draws a hub up its cone.
struct DrawUpNotKnown {
    std::string hub;
    DrawUpUnknown why;
};

/// A thread of which it is not known what it screws onto, and so whether it comes home.
struct PartnerNotKnown {
    std::string thread;
};

using NotAssessed = std::variant<LeftOut, ElsewhereJudged, RadialNotGiven, TakenSquare, TakenCold,
                                 DrawUpNotKnown, PartnerNotKnown>;

}  // namespace trialfit::stack
