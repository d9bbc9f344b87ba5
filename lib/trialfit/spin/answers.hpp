// SPDX-License-Identifier: MIT
#pragma once

#include <optional>
#include <string>
#include <trialfit/quantity/units.hpp>
#include <trialfit/spin/messages.hpp>
#include <trialfit/stack/answers.hpp>
#include <vector>

// What `spin` answers: plain data, ready for any printer. Inertia in kg m2, energy in J, speed in
// revolutions per minute, angles in degrees of crank before the top. Of each figure: its least and
// its greatest over all that the job leaves open, and what it is at the middle of all ranges.
namespace trialfit::spin {

using stack::Estimate;
using stack::Verdict;

/// The engine as it would start without a part, at the middle of all ranges.
struct WithoutPart {
    double inertia_kg_m2 = 0.0;
    double at_firing_rpm = 0.0;  ///< 0 where it stops before
};

/// A part that turns.
struct PartInertia {
    std::string part;
    std::string material;
    double density_kg_m3 = 0.0;
    std::string density_source;
    Estimate mass_kg;
    Estimate inertia_kg_m2;
    /// Nothing where the speed at the firing point is not known.
    std::optional<WithoutPart> without{};
};

struct Inertia {
    std::vector<PartInertia> parts;
    std::optional<Estimate> crank_kg_m2;
    /// Of what is known; `whole` where that is all.
    Estimate known_kg_m2;
    bool whole = false;
};

/// What the piston has to get over, from where the cylinder closes. Work is net of what the air
/// under the piston gives back; `gas` is not.
struct CompressionPath {
    Estimate degrees;  ///< where it ends, before the top; 0 is the top
    Estimate gas_j;
    Estimate work_j;
    std::optional<Estimate> drag_j;  ///< nothing where the drag is not given
    std::optional<Estimate> loss_j;  ///< work and drag
};

struct Compression {
    Estimate closes_deg;
    Estimate trapped_cm3;
    CompressionPath to_top;
    std::optional<CompressionPath> to_firing;
};

/// What the starter is known by, and so what a heavier rotor does here: of an energy (given, or by
/// a torque) it makes less speed and loses no more of it to compression, so that it sparks later
/// and is carried over alike; at a speed it holds more energy, which somebody has to put in.
enum class StarterKind { energy, torque, speed };

/// What turns, where the cylinder closes.
struct Started {
    StarterKind by = StarterKind::energy;
    std::optional<Estimate> energy_j;
    std::optional<Estimate> rpm;
};

/// A figure and what it must reach, at least.
struct Held {
    Estimate has;
    Estimate needs;
    Verdict verdict = Verdict::holds;
};

/// With all else as it is, the inertia of all that turns at which it just sparks and is carried
/// over. `at_most` where an energy starts it: lighter sparks better, and 0 means that no inertia
/// does. At least where a speed does: nothing where no inertia does.
struct InertiaLimit {
    bool at_most = false;
    std::optional<double> least_kg_m2;
    std::optional<double> middle_kg_m2;
    std::optional<double> greatest_kg_m2;
};

/// What is needed so that it just sparks and is carried over.
struct StarterNeeded {
    Estimate energy_j;  ///< where the cylinder closes, with the inertia as it is
    InertiaLimit inertia;
};

/// How fast the widest ring goes, and what is stored, at one speed; nothing where no part is known.
struct Running {
    enum class At { idle, full_speed };
    At at = At::idle;
    Estimate rpm;
    std::string ring;  ///< "rotor.skirt"; empty where no turning part has a ring
    std::optional<Estimate> rim_m_s;
    std::optional<Estimate> stored_j;
};

/// Everything `spin` finds.
struct SpinAnswer {
    std::string title;
    std::string file;
    quantity::Unit units = quantity::Unit::mm;
    Verdict verdict = Verdict::holds;
    Inertia inertia;
    std::optional<Compression> compression;
    std::optional<Started> started;
    /// The energy where the cylinder closes against what the way over the top takes, J.
    std::optional<Held> carried;
    /// The speed left at the firing point against what the ignition asks for, rpm; 0 where it stops
    /// before. `needs` is 0 and it is not judged where that is not given.
    std::optional<Held> spark;
    std::optional<StarterNeeded> needed;
    /// Coefficient of fluctuation at idle, of compression alone.
    std::optional<Estimate> unevenness;
    std::vector<Running> running;
    /// The job's checks of magnets over poles and of air gaps, as `check` judges them.
    std::vector<stack::CheckResult> over_poles;
    std::vector<stack::CheckResult> air_gaps;
    /// What changes the answer and so stands before it, as `check` has it.
    std::vector<stack::Warning> warnings;
    std::vector<NotJudged> not_judged;
    std::vector<Note> notes;
    std::vector<NotAssessed> not_assessed;
    std::vector<stack::Caution> cautions;
};

}  // namespace trialfit::spin
