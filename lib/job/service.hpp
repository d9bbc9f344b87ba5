// SPDX-License-Identifier: MIT
#pragma once

#include <map>
#include <optional>
#include <string>
#include <trialfit/job/part.hpp>
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
    std::optional<double> strength_mpa;
};

/// A state in which every check is made: temperatures in degrees Celsius.
struct State {
    std::string name;
    Place at;
    double all_c = 20.0;
    /// Parts that differ (index into Job::parts -> temperature).
    std::map<int, double> part_c;
};

/// Tightening the nut: torque and friction as ranges, and what the seat must carry.
struct SeatService {
    Place at;
    std::optional<Span> nut_torque_nm;
    std::optional<Span> thread_friction;
    std::optional<Span> under_nut_friction;
    std::optional<Span> cone_friction;
    std::optional<Span> engine_torque_nm;
    std::optional<Span> crank_acceleration_rad_s2;
    std::optional<Span> speed_rpm;
};

enum class Turning { clockwise, anticlockwise };
enum class FireIn { mm, degrees };

/// When to fire: a piston height, or a crank angle, before top dead centre.
struct FireAt {
    Given value;
    FireIn in = FireIn::mm;
};

struct Slot {
    Place at;
    Given dia;
    Given length;
};

struct CurvePoint {
    double rpm = 0.0;
    double degrees = 0.0;
};

/// Advance against speed, degrees of crank; speeds rise.
struct Curve {
    std::string name;
    Place at;
    std::vector<CurvePoint> points;
};

struct Timing {
    Place at;
    Given stroke;
    Given rod;
    std::optional<Given> pin_offset;
    /// Tilt of the plug hole to the bore, degrees.
    double plug_tilt_deg = 0.0;
    /// Which way the crank turns, seen from outboard.
    std::optional<Turning> turns;
    std::optional<FireAt> fire_at;
    int gauge = -1;
    std::optional<Given> rim_dia;
    std::optional<Slot> slot;
    std::vector<Curve> curves;
};

/// One entry of the as-built record; the latest is the present state.
struct RecordEntry {
    Place at;
    std::string date;
    std::string who;
    std::string note;
    struct AsCut {
        FaceRef face;
        Given size;
    };
    struct Fitted {
        int part = -1;
        std::vector<Given> shims;
    };
    std::vector<AsCut> as_cut;
    std::vector<Fitted> fitted;
};

}  // namespace trialfit::job
