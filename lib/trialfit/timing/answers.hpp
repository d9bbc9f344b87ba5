// SPDX-License-Identifier: MIT
#pragma once

#include <optional>
#include <string>
#include <trialfit/job/service.hpp>
#include <trialfit/job/validity/warnings.hpp>
#include <trialfit/quantity/units.hpp>
#include <trialfit/stack/answers.hpp>
#include <trialfit/timing/messages.hpp>
#include <vector>

// What `timing` answers: plain data, ready for any printer. Lengths in the file's unit, angles in
// degrees of crank before the true top; negative = after it.
namespace trialfit::timing {

using stack::Range;
using stack::Verdict;

/// What one size does to an angle, the others held in the middle.
struct Share {
    std::string of;       ///< "stroke", or the gauge's name
    std::string written;  ///< as the file has it; empty where it does not
    double half_width_deg = 0.0;
    double sd_deg = 0.0;
    double worst_share = 0.0;     ///< of the sum of the half-widths
    double variance_share = 0.0;  ///< of the variance
};

/// A point of the crank's turn, set or found by the gauge.
struct CrankPoint {
    double degrees = 0.0;
    double height = 0.0;         ///< of the piston below its top
    double gauge_reading = 0.0;  ///< along the plug hole: height / cos(tilt)
    double height_per_deg = 0.0;
    Range worst;  ///< degrees, over all limits at once
    Range rss;    ///< degrees, within the worst case
    double sd_deg = 0.0;
    std::vector<Share> shares;  ///< biggest first; those of exact sizes left out
};

/// The firing point that is asked for.
struct Firing {
    std::string written;
    job::AngleIn in = job::AngleIn::length;
    CrankPoint set;  ///< as the gauge sets it
    /// The gauge that it is set by: the one that read it, else the section's; empty for none.
    std::string gauge;
    double gauge_half_width = 0.0;
    /// Limits written with it, in degrees and as heights; nothing where it was written without.
    std::optional<Range> allowed_deg;
    std::optional<Range> allowed_height;
    /// Whether the gauge keeps it within those limits, even in the worst case; in the kind it was
    /// written in, so that a height does not depend on stroke and rod.
    std::optional<Verdict> gauge_keeps_it;
};

/// Where it fires as it is set now.
struct FiresNow {
    std::string written;
    double degrees = 0.0;
    double height = 0.0;
    Range worst;  ///< degrees
};

/// The top on the degree wheel, from readings.
struct FoundTop {
    double top_deg = 0.0;     ///< the true top on the wheel
    double middle_deg = 0.0;  ///< plain middle of the readings
    double worst_deg = 0.0;   ///< half-width
    double sd_deg = 0.0;
    /// Half-width of a mark set by this wheel from this top: worst_deg and one reading more.
    double set_worst_deg = 0.0;
    double set_sd_deg = 0.0;
    std::optional<double> height;  ///< at which a stop held the piston
    double holds = 0.0;            ///< half-width taken for the stop
};

/// How far from the top the crank may stand while a gauge of that half-width shows no change.
struct GaugeDwell {
    std::string gauge;  ///< empty where it is no gauge of the file
    double half_width = 0.0;
    double before_deg = 0.0;
    double after_deg = 0.0;
};

struct Top {
    std::optional<FoundTop> by_stops;
    std::optional<FoundTop> by_dwell;
    /// The file's gauge; where it names none, 0.01 and 0.05 mm.
    std::vector<GaugeDwell> gauges;
};

/// A mark's distance on a diameter.
struct Offset {
    double dia = 0.0;
    double degrees = 0.0;
    double arc = 0.0;
    double chord = 0.0;
};

/// One circle that carries marks: the offset of one degree, and those of the firing point (from
/// the mark of the top) and of the turn that the stator needs, where they are known.
struct MarkCircle {
    Offset one_degree;
    std::optional<Offset> firing;
    std::optional<Offset> turn;
};

/// A mark found on the rotor, held to the firing point.
struct MarkFit {
    std::string name;
    std::string written;
    double degrees = 0.0;
    Range limits;
    std::optional<double> height;    ///< where it lies within half a turn before the top
    double off_deg = 0.0;            ///< mark less firing point, -180..180; + = fires too early
    bool fits = false;               ///< its limits meet the firing point's
    bool fits_turned_round = false;  ///< it would, if the shaft turned the other way
};

struct Marks {
    std::optional<MarkCircle> rim;
    std::optional<MarkCircle> stator;
    std::vector<MarkFit> found;            ///< empty without a firing point to hold them to
    std::optional<std::size_t> nearest{};  ///< index into `found`; none where that is empty
};

/// Which way to turn the stator, where the file says which way the shaft turns.
struct StatorTurns {
    trade::Turning earlier = trade::Turning::clockwise;
    trade::Turning later = trade::Turning::clockwise;
};

/// Travel to one side of where the screw stands.
struct Room {
    double arc = 0.0;
    double degrees = 0.0;
    double least_deg = 0.0;  ///< in the worst case
};

/// The turn that the stator needs, against what its slot allows.
struct Turn {
    double degrees = 0.0;  ///< + for earlier, - for later
    Range worst;
    double arc = 0.0;        ///< at the slot, >= 0
    double free_arc = 0.0;   ///< that way
    double short_arc = 0.0;  ///< to be filed, >= 0
    double short_arc_worst = 0.0;
    Verdict verdict = Verdict::holds;
    /// Where it fires with the screw at the slot's end that way.
    double furthest_deg = 0.0;
    double furthest_height = 0.0;
    /// The side that `short_arc_worst` is missing on; where `worst` lies on both sides of nothing
    /// it need not be that of `degrees`.
    bool short_earlier = false;
};

struct SlotTravel {
    double dia = 0.0;
    Room earlier;
    Room later;
    bool from_middle = true;      ///< the file does not say where the screw stands
    std::optional<double> screw;  ///< its diameter; else the slot's length was taken as the travel
    std::optional<Turn> turn;
};

/// The spark at one speed.
struct Spark {
    double rpm = 0.0;
    double degrees = 0.0;
    double height = 0.0;  ///< of the piston below its top then, before and after alike
    std::optional<double> milliseconds;  ///< before the top; nothing at no speed
    bool covered = true;                 ///< within the points of every curve that counts
};

/// One setting: the fixed advance and the curves that count together.
struct Setting {
    std::string name;                  ///< of its last curve
    std::vector<std::string> adds_up;  ///< "fire_at" and curves, in the order in which they add
    std::vector<Spark> sparks;
};

/// Two settings side by side, at every speed at which either has a point.
struct Comparison {
    struct Row {
        double rpm = 0.0;
        double one_deg = 0.0;
        double other_deg = 0.0;
        double more_deg = 0.0;  ///< other less one: + where the other fires earlier
        std::optional<double> more_milliseconds;
    };
    std::string one;
    std::string other;
    std::vector<Row> rows;
};

struct TimingAnswer {
    std::string file;
    std::string title;
    quantity::Unit units = quantity::Unit::mm;
    /// What changes the answer and so stands before it, see job::warnings.
    std::vector<job::Warning> warnings{};
    double stroke = 0.0;
    double rod = 0.0;
    double pin_offset = 0.0;
    double plug_tilt_deg = 0.0;
    std::string gauge;  ///< empty where the file names none
    double gauge_half_width = 0.0;
    std::optional<trade::Turning> turns;
    std::optional<StatorTurns> stator_turns;
    std::optional<Firing> firing;
    std::optional<FiresNow> now;
    Top top;
    Marks marks;
    std::optional<SlotTravel> slot;
    std::vector<Setting> settings;
    std::vector<Comparison> comparisons;
    /// What was asked and could not be judged, and why: the answer then never holds.
    std::vector<NotJudged> not_judged;
    /// Whether the slot reaches and the gauge keeps the firing point within its limits. Holds where
    /// the file asks neither.
    Verdict verdict = Verdict::holds;
    std::vector<Note> notes;
    std::vector<stack::Caution> cautions;
};

}  // namespace trialfit::timing
