// SPDX-License-Identifier: MIT
#pragma once

#include <optional>
#include <string>
#include <trialfit/quantity/units.hpp>
#include <trialfit/stack/answers.hpp>
#include <trialfit/stack/tightened/estimate.hpp>
#include <vector>

// What `seat` answers: plain data, ready for any printer. Each figure says its unit and where it
// comes from: a line of the job file, a cited formula or table, or what was assumed and why.
namespace trialfit::seat {

using stack::Estimate;

/// Something that the answer is reckoned from.
struct Input {
    std::string what;
    Estimate value;
    std::string unit;    ///< "N m", "MPa", "mm"; empty for a bare number
    std::string source;  ///< "line 31", "assumed: ..."
};

/// Something found; `at_least` or `at_most` where it is held to a limit. `fails` where the middle
/// estimate breaks the limit, `doubtful` where only an extreme does.
struct Finding {
    std::string id;    ///< "cone_torque", "thread_stress"
    std::string what;  ///< "torque that the cone holds"
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
    std::string why;  ///< empty where it holds
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
    std::string id;
    std::string what;
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
    std::string impossible;                          ///< why no seat is left, where none is
};

/// Where the limits of the nut's torque lie, N m, in the worst case of all other ranges. Limits of
/// the reckoning and no setting: the engine maker's torque comes first.
struct TorqueLimits {
    /// At which the cone holds what is asked of it; nothing where nothing is asked.
    std::optional<double> cone_needs;
    /// At which the first other limit is reached, and whose (id of a finding, or a check's name).
    /// Nothing where something that could set a lower one is not judged.
    std::optional<double> most;
    std::string most_by;

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
    std::vector<std::string> warnings;
    /// What was asked and could not be judged, and why: the answer then never holds.
    std::vector<std::string> not_judged;
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
    std::vector<Finding> findings;
    std::vector<Moved> moved;
    std::vector<CutCost> cuts;
    std::vector<std::string> notes;
    std::vector<stack::Caution> cautions;
    std::vector<std::string> not_assessed;
};

}  // namespace trialfit::seat
