// SPDX-License-Identifier: MIT
#pragma once

#include <optional>
#include <trialfit/trade/thread/thread.hpp>

// Torque and preload of a threaded joint. Lengths mm, forces N, torques N mm, stresses MPa.
// Friction: `thread` on the flanks, `face` under the turning head or nut.
namespace trialfit::trade {

struct Friction {
    double thread = 0.0;
    double face = 0.0;
};

/// Tightening torque, N mm, for a preload: M = F (0.16 P + 0.58 d2 mu_thread + Dk/2 mu_face)
/// (VDI 2230:2001, sheet 1, eq. for MA; from memory). The constants are those of its tables: of 45
/// printed torques they give 39 to the last digit, rounded or cut off, where the geometry's own
/// 1/(2 pi) and 1/(2 cos 30) give 30. `face_mean_mm` is Dk, the mean of the bearing face's outer
/// and inner diameter.
[[nodiscard]] double torque_for_preload_Nmm(const ThreadForm& form, double preload_N,
                                            Friction friction, double face_mean_mm);

/// Preload, N, of a torque: the inverse of torque_for_preload_Nmm.
[[nodiscard]] double preload_for_torque_N(const ThreadForm& form, double torque_Nmm,
                                          Friction friction, double face_mean_mm);

/// Greatest preload, N, at tightening for a share `utilisation` (0.9 is usual) of the yield
/// strength used up by tension and thread torsion together: F = A0 nu Rp / sqrt(1 + 3 (1.5 d2/d0
/// (P/(pi d2) + 1.155 mu))^2), d0 = (d2 + d3)/2 (VDI 2230:2001, sheet 1; from memory, its tables
/// reproduced to 0.3 %). Metric threads; for unified ones d0 is taken from the tensile stress area.
[[nodiscard]] double allowed_preload_N(const ThreadForm& form, double yield_MPa,
                                       double thread_friction, double utilisation);

/// Nut factor K of T = K F d: K d = dm/2 (tan l + f sec 30)/(1 - f tan l sec 30) + 0.625 fc d
/// with tan l = P/(pi dm) and dm the pitch diameter (J. E. Shigley, Mechanical Engineering Design,
/// 5th ed., eq. 8-19). The face is taken to bear at 0.625 d.
[[nodiscard]] double nut_factor(const ThreadForm& form, Friction friction);

/// Nut factor by MIL-HDBK-60, eq. 100.5.1: K d = P/(2 pi) + f (d - 0.75 P sin 60)/(2 sin 60) +
/// 0.625 fc d.
[[nodiscard]] double nut_factor_handbook(const ThreadForm& form, Friction friction);

/// Bearing face of a hexagon head or nut on a clearance hole, mm: least outside diameter (ISO 4014)
/// and hole of the medium series (ISO 273). M5 to M24; nothing for other diameters.
struct BearingFace {
    double outside_mm = 0.0;
    double hole_mm = 0.0;

    [[nodiscard]] double mean_mm() const { return (outside_mm + hole_mm) / 2.0; }
};
/// The face of a hexagon nut of nominal diameter `d_mm`; none for a size that the table lacks.
[[nodiscard]] std::optional<BearingFace> hexagon_face(double d_mm);

}  // namespace trialfit::trade
