// SPDX-License-Identifier: MIT
#pragma once

#include <map>
#include <optional>
#include <string>
#include <trialfit/job/check.hpp>
#include <trialfit/job/part.hpp>
#include <trialfit/trade/engine/turning.hpp>
#include <vector>

// What a job says beyond the stack: materials and states, tightening, timing, the record.
namespace trialfit::job {

/// A range with a place; least <= greatest. A single figure has both ends alike.
struct Span {
    double least = 0.0;
    double greatest = 0.0;
    Place at;
};

/// A material of the job's own, or figures that overrule the table's. Nothing where not given.
struct OwnMaterial {
    std::string name;
    Place at;
    std::optional<double> expansion_per_k;
    std::optional<double> density_kg_m3;
    std::optional<double> modulus_mpa;
    std::optional<double> poisson;
    std::optional<double> strength_mpa;  ///< yield or 0.2 % proof
    std::optional<double> tensile_mpa;   ///< at which it breaks
};

/// The names of the states that answers have by themselves: the sizes as they were measured, and
/// the hub drawn home by its nut.
inline constexpr const char* kAsMeasured = "as measured";
inline constexpr const char* kTightened = "tightened";

/// A state in which every check is made: temperatures in degrees Celsius.
struct State {
    std::string name;
    Place at;
    double all_c = 20.0;
    /// Parts that differ (index into Job::parts -> temperature).
    std::map<PartId, double> part_c;
};

/// Tightening the nut: torque and friction as ranges, and what the seat must carry.
struct SeatService {
    Place at;
    /// The part on the cone and the thread that draws it home, where the
    /// job names them; they are to be found where it does not.
    std::optional<PartId> hub{};
    std::optional<ThreadRef> nut{};
    std::optional<Span> nut_torque_nm;
    std::optional<Span> thread_friction;
    std::optional<Span> under_nut_friction;
    std::optional<Span> cone_friction;
    std::optional<Span> engine_torque_nm;
    std::optional<Span> crank_acceleration_rad_s2;
    std::optional<Span> speed_rpm;
};

/// How an angle is written: in degrees, or as the length that makes it (a piston height below the
/// top, an arc on the rim).
enum class AngleIn { degrees, length };

struct AngleGiven {
    Given value;
    AngleIn in = AngleIn::length;
};

/// The curved slots by which the stator turns.
struct Slot {
    Place at;
    /// Of the circle on which the slot's middle line lies.
    Given dia;
    /// Along that circle: end to end where `screw` is given, else the screw's travel.
    Given length;
    /// Diameter of the screw in the slot.
    std::optional<Given> screw;
    /// Travel left, along the arc, for turning the stator so that it fires earlier; half of the
    /// whole where the job does not say.
    std::optional<Given> free_earlier;
};

/// A degree wheel's readings where the piston meets a stop, before and after the top. They count up
/// in the turning direction; `before_deg` < `after_deg` < `before_deg` + 360.
struct StopReadings {
    Place at;
    double before_deg = 0.0;
    double after_deg = 0.0;
    /// Half-width that one reading of the wheel is good to.
    double wheel_deg = 0.0;
    /// Half-width of the height at which the piston comes to rest; the gauge's where not given.
    std::optional<double> holds;
};

/// A degree wheel's readings between which the gauge stood still at its highest, as StopReadings.
struct DwellReadings {
    Place at;
    double from_deg = 0.0;
    double to_deg = 0.0;
    double wheel_deg = 0.0;
};

/// A mark on the rotor's rim, counted from the mark that stands at the pointer at the top, + in the
/// direction in which the shaft turns. A length is an arc on the rim.
struct TimingMark {
    std::string name;
    Place at;
    AngleGiven angle;
};

/// What a curve's degrees count from: the top, the fixed advance (Timing::fire_at), another curve.
enum class CurveOn { top, fire_at, curve };

/// Advance against speed, degrees of crank, + before; speeds rise.
struct Curve {
    std::string name;
    Place at;
    std::vector<trade::CurvePoint> points;
    CurveOn on = CurveOn::top;
    /// The curve that it adds to, listed before it; only where `on` is a curve.
    std::optional<int> on_curve{};
};

struct Timing {
    Place at;
    Given stroke;
    Given rod;
    /// Of the pin's path from the crank's axis, + towards the side to which the crank pin moves
    /// just after the top.
    std::optional<Given> pin_offset;
    /// Tilt of the plug hole to the bore, degrees.
    std::optional<Given> plug_tilt;
    /// Which way the crank turns.
    std::optional<trade::Turning> turns;
    /// When to fire, and when it fires as it is set now: before the top. A height `by` a gauge is
    /// what the gauge reads in the plug hole, any other is the piston's own.
    std::optional<AngleGiven> fire_at;
    std::optional<AngleGiven> fires_now;
    std::optional<GaugeId> gauge{};
    std::optional<StopReadings> stops;
    std::optional<DwellReadings> dwell;
    std::optional<Given> rim_dia;
    /// Diameter on which the stator carries its mark.
    std::optional<Given> stator_dia;
    std::vector<TimingMark> marks;
    std::optional<Slot> slot;
    std::vector<Curve> curves;
};

/// One entry of the as-built record; the latest is the present state. Finish sizes are without
/// sign, from the face that the cut is measured from.
struct RecordEntry {
    Place at;
    std::string date;
    std::string who;
    std::string note;
    /// What is left of a face from the one that its cut is measured from, or (`by_amount`) what
    /// came off it; > 0 either way.
    struct AsCut {
        FaceRef face;
        Given size;
        bool by_amount = false;
    };
    struct Fitted {
        PartId part;
        std::vector<Given> shims;
    };
    /// A ring's bore or outside, whichever its skim turns, on diameter.
    struct AsSkimmed {
        RingRef ring;
        bool bore = false;
        Given size;
    };
    /// What came off a cone and its partner, on diameter.
    struct Lapped {
        ConeRef cone;
        double off = 0.0;
    };
    /// What is left of a part's clearance, on diameter.
    struct Centred {
        PartId part;
        Given clearance;
    };
    std::vector<AsCut> as_cut;
    std::vector<Fitted> fitted;
    std::vector<AsSkimmed> as_skimmed;
    std::vector<Lapped> lapped;
    std::vector<Centred> centred;
    /// Work that is planned and not done. Such an entry has no readings.
    bool planned = false;
    /// Nobody wrote it into the file: it is a "what if" of whoever asks.
    bool supposed = false;
    /// Readings taken with the parts trial-fitted after this entry's work.
    std::vector<Reading> measured;
};

}  // namespace trialfit::job
