// SPDX-License-Identifier: MIT
#pragma once

#include <optional>
#include <string>
#include <trialfit/job/complaint.hpp>
#include <trialfit/quantity/units.hpp>
#include <trialfit/seat/messages.hpp>
#include <trialfit/stack/answers.hpp>
#include <variant>
#include <vector>

// What `seat` answers: plain data, ready for any printer. Each figure says its unit and where it
// comes from: a line of the job file, a cited formula or table, or what was assumed and why.
namespace trialfit::seat {

using stack::Estimate;

/// What the answer is reckoned from.
enum class Quantity {
    nut_torque,
    thread_friction,
    under_nut_friction,
    cone_friction,
    needed_torque,
    inertia,           ///< of what turns with the hub
    contact_length,    ///< of the cone
    contact_diameter,  ///< of the cone, the mean
    face_diameter,     ///< under the nut, the mean
    bolt_yield,
    bolt_strength,  ///< that the external thread strips by
    nut_strength,   ///< that the internal thread strips by
    hub_outside,
    hub_yield,
};

/// Something that the answer is reckoned from.
struct Input {
    Quantity what = Quantity::nut_torque;
    Estimate value;
    std::string unit;    ///< "N m", "MPa", "mm"; empty for a bare number
    std::string source;  ///< "line 31", "assumed: ..."
};

/// Something found; `at_least` or `at_most` where it is held to a limit. `fails` where the middle
/// estimate breaks the limit, `doubtful` where only an extreme does.
struct SeatFinding {
    FindingId id = FindingId::cone_torque;
    std::string of{};  ///< the ring that it is of, where it is of one: "rotor.rim"
    Estimate value;
    std::string unit;
    std::string source;  ///< the formula
    std::optional<double> at_least{};
    std::optional<double> at_most{};
    std::string limit_source{};
    /// `not_judged` where nothing says what it may be, or the hub is not seated; nothing where the
    /// figure is for information only.
    std::optional<stack::Verdict> verdict{};
};

/// Whether the hub reaches its cone at all. Where it does not, the cone holds nothing, whatever the
/// other figures say.
struct Seated {
    stack::Verdict verdict = stack::Verdict::holds;
    std::optional<LandsFirst> why{};  ///< nothing where it holds
};

/// What drawing the hub up does to one clearance or check. Lengths in the file's unit.
struct Moved {
    std::string name;
    double nominal_before = 0.0;
    stack::Range worst_before;
    double nominal_after = 0.0;  ///< at the middle draw-up
    stack::Range worst_after;    ///< over the whole range of the draw-up
    std::optional<double> at_least;
    std::optional<double> at_most;
    stack::Verdict verdict_before = stack::Verdict::holds;
    stack::Verdict verdict = stack::Verdict::holds;
};

/// What one figure becomes once a face is cut back to its `keep`.
struct Changed {
    FindingId id = FindingId::cone_torque;
    std::string of{};  ///< as of a finding
    std::string unit;
    Estimate now;
    Estimate then;
    std::optional<stack::Verdict> verdict_then;
};

/// What a cut that the job allows would cost the seat, taken all the way to `keep`.
struct CutCost {
    std::string face;  ///< "rotor.boss_in"
    int line = 0;
    double size_now = 0.0;  ///< in the file's unit
    double keep = 0.0;
    std::vector<Changed> changed;
    stack::Verdict verdict = stack::Verdict::holds;  ///< of all findings then
    std::optional<job::Complaint> impossible{};      ///< why no seat is left, where none is
};

/// Where the limits of the nut's torque lie, N m, in the worst case of all other ranges. Limits of
/// the reckoning and no setting: the engine maker's torque comes first.
struct TorqueLimits {
    /// At which the cone holds what is asked of it; nothing where nothing is asked.
    std::optional<double> cone_needs;
    /// At which the first other limit is reached, and whose: a finding's, or that of the check of
    /// that name. Nothing where something that could set a lower one is not judged.
    std::optional<double> most;
    std::variant<FindingId, std::string> most_by{};

    [[nodiscard]] bool cross() const { return cone_needs && most && *cone_needs > *most; }
};

/// Everything `seat` finds.
struct SeatAnswer {
    std::string title;
    std::string file;
    quantity::Unit units = quantity::Unit::mm;
    std::string hub;
    std::string shaft;
    std::string nut;
    stack::Verdict verdict = stack::Verdict::holds;
    /// What changes the answer and so stands before it: job::warnings, unequal tapers.
    std::vector<Warning> warnings;
    /// What was asked and could not be judged, and why: the answer then never holds.
    std::vector<NotJudged> not_judged;
    Seated seated;
    /// Nothing where the file states none: what the torque does is then left out.
    std::optional<Estimate> nut_torque_nm;
    std::optional<Estimate> held_nm;
    std::optional<double> needed_nm;
    bool more_may_be_needed = false;  ///< what an acceleration asks is known in part only
    TorqueLimits torque_limits;
    Estimate draw_up;  ///< along the axis, in the file's unit
    bool draw_up_known = false;
    std::vector<Input> inputs;
    std::vector<SeatFinding> findings;
    std::vector<Moved> moved;
    std::vector<CutCost> cuts;
    std::vector<Note> notes;
    std::vector<stack::Caution> cautions;
    std::vector<NotAssessed> not_assessed;
};

}  // namespace trialfit::seat
