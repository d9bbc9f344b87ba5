// SPDX-License-Identifier: MIT
#pragma once

#include <trialfit/stack/tightened/joint.hpp>

namespace trialfit::stack {

/// The stated (or assumed) ranges of a tightening.
struct Tightening {
    Estimate torque_nm;
    Estimate thread_friction;
    Estimate face_friction;
    Estimate cone_friction;
};

/// What a seat section states, and where it states no friction what workshop tables of dry to
/// lightly oiled steel commonly span (common practice, no source): thread and face 0.10 to 0.20,
/// cone 0.10 to 0.15. Without a torque the torque is 0.
[[nodiscard]] Tightening tightening_of(const job::SeatService& service);

/// The first friction that a seat section does not state; nothing where it states all.
[[nodiscard]] std::optional<DrawUpLacks> friction_missing(const job::SeatService& service);

/// One point of all those ranges and of the joint's own.
struct Corner {
    double torque_nm = 0.0;
    double thread_friction = 0.0;
    double face_friction = 0.0;
    double cone_friction = 0.0;
    double face_mean_mm = 0.0;
    double engaged_mm = 0.0;
    Contact contact;
};

/// What the nut's torque does at one point. All of it is proportional to the torque. A share is of
/// the load that breaks; NaN where the job does not say what it needs.
struct Load {
    double preload_n = 0.0;
    double thread_stress_mpa = 0.0;  ///< tension and torsion on the stress area
    double cone_torque_nm = 0.0;
    double pull_off_n = 0.0;
    double cone_pressure_mpa = 0.0;
    double hub_hoop_mpa = 0.0;
    double hub_stress_mpa = 0.0;  ///< equivalent, at the hub's bore
    double draw_up_mm = 0.0;
    double bolt_strip_share = 0.0;
    double nut_strip_share = 0.0;
    double nut_proof_share = 0.0;
};

/// Preload by torque_for_preload_Nmm's inverse; thread stress preload / allowed_preload_N (both VDI
/// 2230, trade/fastening/torque.hpp); cone by cone_grip and press_from_force
/// (trade/cone/cone_joint.hpp); hub by tube_stress (Lame); strip shares by FED-STD-H28/2B, shear at
/// half the strength.
[[nodiscard]] Load load_at(const Joint& joint, const Corner& corner);

/// A figure of Load over every corner of all ranges, and at their middles. Each figure that is held
/// to a limit has its extreme on that side at a corner: all are proportional to the torque; preload
/// falls with both frictions; the cone's torque rises with its friction, pressure and draw-up fall
/// with it; the thread's stress, over the thread's friction, falls and then rises, or only falls.
[[nodiscard]] Estimate over_all(const Joint& joint, const Tightening& tightening,
                                double Load::*figure);

/// How far a nut draws a hub home.
struct DrawUp {
    job::PartId hub;  ///< index into Job::parts
    Estimate travel;  ///< along the axis, towards the inboard end, >= 0, in the file's unit
};

/// How far the stated nut torque draws the hub of the job's seat section from where it first
/// touches its cone all over, over every stated range at once: preload of the torque, cone pressure
/// of the preload, Lame interference of the pressure, over the taper (load_at). Give it the cold
/// model. Why not, where the job has no seat section or
/// states no nut torque or not every friction, where the section cannot be worked out, or where the
/// materials of hub and shaft or the ring round the cone are not given.
[[nodiscard]] std::variant<DrawUp, DrawUpUnknown> draw_up(const Model& model);

}  // namespace trialfit::stack
