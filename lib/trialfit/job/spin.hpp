// SPDX-License-Identifier: MIT
#pragma once

#include <optional>
#include <trialfit/job/service.hpp>
#include <variant>

// What a job says of starting its engine.
namespace trialfit::job {

/// A starter that has put so much energy into what turns by where the cylinder closes, J.
struct StarterEnergy {
    Span energy_j;
};
/// One that turns the engine from rest by a steady torque over so many turns, up to where the
/// cylinder closes.
struct StarterTorque {
    Span torque_nm;
    Span turns;
};
/// One that brings the engine to a speed by where the cylinder closes, whatever it weighs.
struct StarterSpeed {
    Span speed_rpm;
};
using Starter = std::variant<StarterEnergy, StarterTorque, StarterSpeed>;

/// What is taken where the section does not say.
inline constexpr Span kUsualExponent{1.25, 1.35, {}};
inline constexpr Span kUsualAir_kpa{101.325, 101.325, {}};  ///< ISO 2533 at sea level
inline constexpr Span kNothingUnderPiston{0.0, 0.0, {}};    ///< asks for the most work

/// What its figures may be at most: well beyond any engine that is started by hand, and such that
/// no answer overflows.
inline constexpr double kMostInertia_kg_m2 = 1e4;
inline constexpr double kMostStarterTorque_nm = 1e5;
inline constexpr double kMostEnergy_j = 1e7;
inline constexpr double kMostTurns = 1000.0;
inline constexpr double kMostCompression = 100.0;
inline constexpr double kMostExponent = 2.0;
inline constexpr double kMostAir_kpa = 1000.0;
inline constexpr double kMostSpin_rpm = 1e6;
/// And at least, where it must be more than 0 (of `compression`: than 1).
inline constexpr double kLeastInertia_kg_m2 = 1e-9;
inline constexpr double kLeastCompression = 1.001;
inline constexpr double kLeastExponent = 0.5;
inline constexpr double kLeastAir_kpa = 1.0;
inline constexpr double kLeastSpin_rpm = 1.0;
inline constexpr double kLeastTurns = 0.01;

struct Spin {
    Place at;
    /// Of the crank, the rod, the clutch: all that turns but is none of the job's parts, and the
    /// shaft that the turning parts sit on; > 0.
    std::optional<Span> crank_inertia_kg_m2;
    /// What turning over takes beside compression, N m.
    std::optional<Span> drag_nm;
    std::optional<Starter> starter;
    Place starter_at;
    std::optional<Given> bore;
    /// Of the trapped volume to what is left of it at the top; > 1.
    std::optional<Span> compression;
    /// Of the polytropic compression; > 0.
    std::optional<Span> exponent;
    /// Where ports or valves close, before the top; the bottom where not given.
    std::optional<AngleGiven> closes_at;
    /// Outside, and in the cylinder where it closes; absolute, > 0.
    std::optional<Span> air_kpa;
    /// Pressure under the rising piston as a share of that of the air, 0 to 1; nothing pushes there
    /// where not given.
    std::optional<Span> under_piston;
    /// The least speed at which the ignition sparks; > 0.
    std::optional<Span> spark_from_rpm;
    std::optional<Span> idle_rpm;  ///< > 0
};

}  // namespace trialfit::job
