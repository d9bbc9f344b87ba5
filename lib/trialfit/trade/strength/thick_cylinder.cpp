// SPDX-License-Identifier: MIT
#include <trialfit/trade/strength/thick_cylinder.hpp>

#include <cmath>
#include <trialfit/trade/domain.hpp>

namespace trialfit::trade {
namespace {

// (1 + q^2) / (1 - q^2): hoop stress at the pressed side of a tube per unit of pressure.
double hoop_ratio(double inside, double outside) {
    const double q = inside / outside;
    return (1.0 + q * q) / (1.0 - q * q);
}

// Radial yield of each part per MPa, over the joint's radius: hub opens, shaft shrinks.
double hub_yield(const ShrinkPair& pair) {
    return (hoop_ratio(pair.joint_dia, pair.hub_od) + pair.hub.poisson) / pair.hub.modulus_mpa;
}

double shaft_yield(const ShrinkPair& pair) {
    return (hoop_ratio(pair.shaft_bore, pair.joint_dia) - pair.shaft.poisson) /
           pair.shaft.modulus_mpa;
}

Domain domain_of(const ShrinkPair& pair) {
    return Domain()
        .tube("shaft bore", pair.shaft_bore, "joint diameter", pair.joint_dia)
        .tube("joint diameter", pair.joint_dia, "hub outside diameter", pair.hub_od)
        .positive("shaft modulus", pair.shaft.modulus_mpa)
        .positive("hub modulus", pair.hub.modulus_mpa);
}

TubeStress lame(double bore, double od, double inside_mpa, double outside_mpa, double dia) {
    if (bore == 0.0) return {-outside_mpa, -outside_mpa};
    const double wall = od * od - bore * bore;
    const double even = (inside_mpa * bore * bore - outside_mpa * od * od) / wall;
    const double q = bore / dia;
    const double uneven = (inside_mpa - outside_mpa) * q * q * od * od / wall;
    return {even - uneven, even + uneven};
}

}  // namespace

double von_mises_mpa(const TubeStress& stress) {
    const double h = stress.hoop_mpa;
    const double r = stress.radial_mpa;
    return std::sqrt(h * h - h * r + r * r);
}

Result<TubeStress> tube_stress(double bore, double od, double inside_mpa, double outside_mpa,
                               double dia) {
    const Domain domain = Domain()
                              .tube("bore", bore, "outside diameter", od)
                              .within("diameter in the wall", dia, bore, od)
                              .not_negative("inside pressure", inside_mpa)
                              .not_negative("outside pressure", outside_mpa);
    if (!domain) return domain.why();
    return lame(bore, od, inside_mpa, outside_mpa, dia);
}

double thin_tube_hoop_mpa(double bore, double wall, double inside_mpa) {
    return inside_mpa * bore / (2.0 * wall);
}

Result<double> interference_per_mpa(const ShrinkPair& pair) {
    if (const Domain domain = domain_of(pair); !domain) return domain.why();
    return pair.joint_dia * (hub_yield(pair) + shaft_yield(pair));
}

Result<ShrinkStress> shrink_from_pressure(const ShrinkPair& pair, double pressure_mpa) {
    const Result<double> per_mpa = interference_per_mpa(pair);
    if (!per_mpa) return per_mpa.why();
    if (const Domain domain = Domain().not_negative("pressure", pressure_mpa); !domain)
        return domain.why();
    const double joint = pair.joint_dia;
    ShrinkStress stress;
    stress.interference = *per_mpa * pressure_mpa;
    stress.pressure_mpa = pressure_mpa;
    stress.shaft_bore = lame(pair.shaft_bore, joint, 0.0, pressure_mpa, pair.shaft_bore);
    stress.shaft_joint = lame(pair.shaft_bore, joint, 0.0, pressure_mpa, joint);
    stress.hub_joint = lame(joint, pair.hub_od, pressure_mpa, 0.0, joint);
    stress.hub_rim = lame(joint, pair.hub_od, pressure_mpa, 0.0, pair.hub_od);
    return stress;
}

Result<ShrinkStress> shrink_from_interference(const ShrinkPair& pair, double interference) {
    const Result<double> per_mpa = interference_per_mpa(pair);
    if (!per_mpa) return per_mpa.why();
    if (const Domain domain = Domain().not_negative("interference", interference); !domain)
        return domain.why();
    return shrink_from_pressure(pair, interference / *per_mpa);
}

Result<double> shrink_fit_factor(const ShrinkPair& pair) {
    if (const Domain domain = domain_of(pair); !domain) return domain.why();
    return shaft_yield(pair) / hub_yield(pair);
}

Result<double> shrink_allowance(const ShrinkPair& pair, double stress_mpa) {
    const Result<double> factor = shrink_fit_factor(pair);
    if (!factor) return factor.why();
    if (const Domain domain = Domain().not_negative("stress", stress_mpa); !domain)
        return domain.why();
    return stress_mpa * (1.0 + *factor) / pair.hub.modulus_mpa;
}

}  // namespace trialfit::trade
