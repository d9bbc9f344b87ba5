// SPDX-License-Identifier: MIT
// Thick tubes under pressure and tubes shrunk one on the other. Lengths and diameters in mm,
// stresses and pressures in MPa, tension positive. Exact for long elastic tubes with ends free; a
// hub longer or shorter than its shaft has an end effect that is not in here.
#pragma once

#include <trialfit/trade/result.hpp>

namespace trialfit::trade {

/// Young's modulus, MPa, and Poisson's ratio of one isotropic material.
struct Elastic {
    double modulus_mpa = 0.0;
    double poisson = 0.0;
};

/// Stress at one diameter of a tube; no axial stress.
struct TubeStress {
    double radial_mpa = 0.0;
    double hoop_mpa = 0.0;
};

/// Equivalent stress sqrt(h^2 - h r + r^2) of plane stress; R. G. Budynas and J. K. Nisbett,
/// Shigley's Mechanical Engineering Design, 8th ed., eq. 5-13 with one principal stress zero
/// (equation number from memory).
[[nodiscard]] double von_mises_mpa(const TubeStress& stress);

/// Stress at diameter `dia` of a tube under `inside_mpa` in its bore and `outside_mpa` round it
/// (both >= 0). bore = 0 is a solid bar, which takes no inside pressure. Lame; Shigley's
/// Mechanical Engineering Design, 8th ed., eq. 3-49 (equation number from memory).
/// A reason where bore < 0 or >= od, dia lies outside the wall, or a pressure is negative.
[[nodiscard]] Result<TubeStress> tube_stress(double bore, double od, double inside_mpa,
                                             double outside_mpa, double dia);

/// Hoop stress of a thin tube, p d / 2 t with the bore as d: an under-estimate of the bore's
/// stress.
[[nodiscard]] double thin_tube_hoop_mpa(double bore, double wall, double inside_mpa);

/// A hub on a shaft: joint_dia is the nominal diameter of both; shaft_bore 0 = solid.
struct ShrinkPair {
    double shaft_bore = 0.0;
    double joint_dia = 0.0;
    double hub_od = 0.0;
    Elastic shaft;
    Elastic hub;
};

/// What an interference does to both parts.
struct ShrinkStress {
    double interference = 0.0;  ///< on the diameter, mm
    double pressure_mpa = 0.0;  ///< between the two
    TubeStress shaft_bore;      ///< at the shaft's bore, or all through a solid shaft
    TubeStress shaft_joint;
    TubeStress hub_joint;  ///< where the hub's hoop stress is greatest
    TubeStress hub_rim;
};

/// Interference on the diameter, mm, for 1 MPa between shaft and hub:
/// D [ (K_hub + nu_hub) / E_hub + (K_shaft - nu_shaft) / E_shaft ], K = (1 + q^2) / (1 - q^2) with
/// q = inside / outside diameter of each. Shigley's Mechanical Engineering Design, 8th ed.,
/// eq. 3-56, which has radii and the radial interference.
/// A reason where one diameter is not smaller than the next, or a modulus is not > 0.
[[nodiscard]] Result<double> interference_per_mpa(const ShrinkPair& pair);

/// Stresses of `interference` mm on the diameter (>= 0).
[[nodiscard]] Result<ShrinkStress> shrink_from_interference(const ShrinkPair& pair,
                                                            double interference);

/// Interference and stresses that go with `pressure_mpa` (>= 0).
[[nodiscard]] Result<ShrinkStress> shrink_from_pressure(const ShrinkPair& pair,
                                                        double pressure_mpa);

/// The shrink-fit factor C: the share of the interference that the shaft yields for each 1 that the
/// hub yields, so that by the maximum-strain criterion the interference per unit of diameter for
/// a hub stress s is s (1 + C) / E_hub. Machinery's Handbook, 31st ed., p. 644-645, whose tables
/// have nu = 1/3 for both.
[[nodiscard]] Result<double> shrink_fit_factor(const ShrinkPair& pair);

/// Interference per unit of diameter (mm per mm; the handbook's metric form is 25.4 times this and
/// thus per inch) at which the hub's equivalent stress is `stress_mpa`: s (1 + C) / E_hub.
[[nodiscard]] Result<double> shrink_allowance(const ShrinkPair& pair, double stress_mpa);

}  // namespace trialfit::trade
