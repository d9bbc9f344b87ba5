// SPDX-License-Identifier: MIT
// What it takes to compress what a closed cylinder holds. Lengths in mm, volumes in cm3, pressures
// in kPa, absolute, work in J.
#pragma once

#include <trialfit/trade/result.hpp>

namespace trialfit::trade {

/// A cylinder of one engine from where its ports or valves close. Make one with cylinder_of.
struct Cylinder {
    double bore = 0.0;
    /// Of the piston below its top, where the cylinder closes.
    double closing_drop = 0.0;
    /// Of the volume that is trapped there to what is left of it at the top; > 1.
    double ratio = 0.0;
};

/// A reason where bore or drop is not > 0 or the ratio is not > 1.
[[nodiscard]] Result<Cylinder> cylinder_of(double bore, double closing_drop, double ratio);

/// The volume above the piston that stands `drop` below its top: A (closing_drop/(ratio - 1) +
/// drop), where A is the bore's area. J. B. Heywood, Internal Combustion Engine Fundamentals,
/// eq. 2.4 with the trapped volume for the whole.
[[nodiscard]] double volume_cm3(const Cylinder& cylinder, double drop);

/// What the gas is taken to do.
struct Trapped {
    double kpa = 0.0;  ///< where the cylinder closes
    double exponent = 0.0;
    /// What stands under the piston meanwhile, as a share of `kpa`, 0 to 1.
    double under_piston = 0.0;
};

/// Work that the crank has to give while the piston rises from where the cylinder closes to `drop`
/// below its top (0 to closing_drop), the gas going from V1 to V2 along p V^n = constant: (p2 V2 -
/// p1 V1)/(n - 1), and p1 V1 ln(V1/V2) where n is 1 (M. J. Moran and H. N. Shapiro, Fundamentals of
/// Engineering Thermodynamics, ch. 2, work of a polytropic process), less what the air under the
/// piston gives, under_piston * kpa * (V1 - V2). It rises with bore, ratio, closing drop, pressure
/// and exponent, and falls with `drop` and `under_piston`: it is the integral of p (V1/V(x))^n -
/// under_piston p over x from drop to closing_drop, which is never negative, and V1/V(x) = ratio
/// c/(c + (ratio - 1) x) rises with ratio and with c, the closing drop.
[[nodiscard]] double compression_work_j(const Cylinder& cylinder, const Trapped& gas, double drop);

}  // namespace trialfit::trade
