// SPDX-License-Identifier: MIT
#include <trialfit/trade/cone/cone_joint.hpp>

#include <cmath>
#include <numbers>
#include <trialfit/trade/cone/taper.hpp>
#include <trialfit/trade/domain.hpp>

namespace trialfit::trade {
namespace {

struct HalfAngle {
    double sine;
    double cosine;
};

// Sine and cosine straight from the tangent: no angle is needed.
HalfAngle half_angle(double taper) {
    const double secant = std::hypot(1.0, taper / 2.0);
    return {taper / 2.0 / secant, 1.0 / secant};
}

Domain domain_of(const ConeBearing& cone, double friction, double push) {
    return Domain()
        .positive("taper", cone.taper)
        .positive("mean diameter of the cone", cone.mean_dia)
        .not_negative("friction", friction)
        .not_negative("force, torque or draw-up", push);
}

// Axial force per unit of normal force.
double axial_share(const ConeBearing& cone, double friction, Seating seating) {
    const HalfAngle a = half_angle(cone.taper);
    return seating == Seating::sliding ? a.sine + friction * a.cosine : a.sine;
}

ShrinkPair as_tubes(const ConeBearing& cone, const ConeBodies& bodies) {
    return {bodies.shaft_bore, cone.mean_dia, bodies.hub_od, bodies.shaft, bodies.hub};
}

Result<ConePress> press_from_pressure(const ConeBearing& cone, const ConeBodies& bodies,
                                      double friction, double pressure_mpa) {
    const Result<ShrinkStress> stress = shrink_from_pressure(as_tubes(cone, bodies), pressure_mpa);
    if (!stress) return stress.why();
    const HalfAngle a = half_angle(cone.taper);
    const double normal_force_n =
        pressure_mpa * std::numbers::pi * cone.mean_dia * cone.length / a.cosine;
    ConePress press;
    press.interference = stress->interference;
    press.draw_up = travel_for_diameter(cone.taper, stress->interference);
    press.pressure_mpa = pressure_mpa;
    press.hub_hoop_mpa = stress->hub_joint.hoop_mpa;
    press.seat_force_n = normal_force_n * (a.sine + friction * a.cosine);
    press.pull_off_force_n = normal_force_n * (friction * a.cosine - a.sine);
    press.torque_n_mm = friction * normal_force_n * cone.mean_dia / 2.0;
    return press;
}

}  // namespace

Result<ConeGrip> cone_grip(const ConeBearing& cone, double friction, double axial_force_n,
                           Seating seating) {
    if (const Domain domain = domain_of(cone, friction, axial_force_n); !domain)
        return domain.why();
    const HalfAngle a = half_angle(cone.taper);
    ConeGrip grip;
    grip.normal_force_n = axial_force_n / axial_share(cone, friction, seating);
    grip.torque_n_mm = friction * grip.normal_force_n * cone.mean_dia / 2.0;
    grip.pull_off_force_n = grip.normal_force_n * (friction * a.cosine - a.sine);
    grip.self_holding = friction > cone.taper / 2.0;
    return grip;
}

Result<double> axial_force_for_torque(const ConeBearing& cone, double friction, double torque_n_mm,
                                      Seating seating) {
    if (const Domain domain = domain_of(cone, friction, torque_n_mm); !domain) return domain.why();
    if (friction == 0.0) return Reason{"without friction a cone holds no torque"};
    const double normal_force_n = 2.0 * torque_n_mm / (friction * cone.mean_dia);
    return normal_force_n * axial_share(cone, friction, seating);
}

Result<double> cone_pressure_mpa(const ConeBearing& cone, double normal_force_n) {
    if (const Domain domain = domain_of(cone, 0.0, normal_force_n); !domain) return domain.why();
    if (const Domain domain = Domain().positive("length of the cone", cone.length); !domain)
        return domain.why();
    return normal_force_n * half_angle(cone.taper).cosine /
           (std::numbers::pi * cone.mean_dia * cone.length);
}

Result<double> cone_length_for(const ConeBearing& cone, double normal_force_n,
                               double pressure_mpa) {
    if (const Domain domain = domain_of(cone, 0.0, normal_force_n); !domain) return domain.why();
    if (const Domain domain = Domain().positive("pressure", pressure_mpa); !domain)
        return domain.why();
    return normal_force_n * half_angle(cone.taper).cosine /
           (std::numbers::pi * cone.mean_dia * pressure_mpa);
}

Result<ConePress> press_from_draw_up(const ConeBearing& cone, const ConeBodies& bodies,
                                     double friction, double draw_up) {
    if (const Domain domain = domain_of(cone, friction, draw_up); !domain) return domain.why();
    if (const Domain domain = Domain().positive("length of the cone", cone.length); !domain)
        return domain.why();
    const Result<double> per_mpa = interference_per_mpa(as_tubes(cone, bodies));
    if (!per_mpa) return per_mpa.why();
    return press_from_pressure(cone, bodies, friction,
                               diameter_for_travel(cone.taper, draw_up) / *per_mpa);
}

Result<ConePress> press_from_force(const ConeBearing& cone, const ConeBodies& bodies,
                                   double friction, double axial_force_n) {
    const Result<ConeGrip> grip = cone_grip(cone, friction, axial_force_n);
    if (!grip) return grip.why();
    const Result<double> pressure_mpa = cone_pressure_mpa(cone, grip->normal_force_n);
    if (!pressure_mpa) return pressure_mpa.why();
    return press_from_pressure(cone, bodies, friction, *pressure_mpa);
}

Result<ConePress> press_for_torque(const ConeBearing& cone, const ConeBodies& bodies,
                                   double friction, double torque_n_mm) {
    const Result<double> force_n = axial_force_for_torque(cone, friction, torque_n_mm);
    if (!force_n) return force_n.why();
    return press_from_force(cone, bodies, friction, *force_n);
}

WornCone cone_ends(double mean_dia, double taper, double width) {
    const double half_step = width * half_angle(taper).sine;
    return {mean_dia - half_step, mean_dia + half_step, taper};
}

Result<WornGrip> worn_cone_grip(const WornCone& cone, double friction, double greatest_mpa) {
    const Domain domain =
        Domain()
            .positive("taper", cone.taper)
            .positive("small diameter", cone.small_dia)
            .tube("small diameter", cone.small_dia, "large diameter", cone.large_dia)
            .not_negative("friction", friction)
            .not_negative("pressure", greatest_mpa);
    if (!domain) return domain.why();
    const double sine = half_angle(cone.taper).sine;
    WornGrip grip;
    grip.axial_force_n =
        std::numbers::pi * greatest_mpa * cone.small_dia * (cone.large_dia - cone.small_dia) / 2.0;
    grip.torque_n_mm =
        friction * grip.axial_force_n * (cone.large_dia + cone.small_dia) / (4.0 * sine);
    grip.width = (cone.large_dia - cone.small_dia) / (2.0 * sine);
    return grip;
}

}  // namespace trialfit::trade
