// SPDX-License-Identifier: MIT
#include <cmath>
#include <numbers>
#include <trialfit/trade/domain.hpp>
#include <trialfit/trade/strength/rotor.hpp>

namespace trialfit::trade {
namespace {

constexpr double kSecondsPerMinute = 60.0;

Domain domain_of(const SpinningRing& ring) {
    return Domain()
        .tube("bore", ring.bore, "outside diameter", ring.od)
        .not_negative("density", ring.density_kg_m3)
        .not_negative("Poisson's ratio", ring.poisson);
}

// rho w^2 per mm2 of radius squared: 1 kg/m3 (rad/s)^2 mm^2 is 1e-6 Pa, 1e-12 MPa.
double spin_mpa_per_mm2(double density_kg_m3, double rpm) {
    const double w = radians_per_second(rpm);
    return density_kg_m3 * w * w * 1e-12;
}

// Stresses go with the square of the speed.
Result<double> rpm_where(const SpinningRing& ring, double stress_mpa, double RingStress::*which) {
    const Domain domain = domain_of(ring)
                              .positive("density", ring.density_kg_m3)
                              .not_negative("strength", stress_mpa);
    if (!domain) return domain.why();
    constexpr double kTrial_rpm = 1000.0;
    const Result<RingStress> trial = spinning_ring(ring, kTrial_rpm);
    if (!trial) return trial.why();
    return kTrial_rpm * std::sqrt(stress_mpa / (*trial).*which);
}

}  // namespace

double radians_per_second(double rpm) {
    return rpm * 2.0 * std::numbers::pi / kSecondsPerMinute;
}

Result<RingStress> spinning_ring(const SpinningRing& ring, double rpm) {
    if (const Domain domain = domain_of(ring).not_negative("speed", rpm); !domain)
        return domain.why();
    const double spin = spin_mpa_per_mm2(ring.density_kg_m3, rpm);
    const double ri = ring.bore / 2.0;
    const double ro = ring.od / 2.0;
    const double nu = ring.poisson;
    const bool solid = ring.bore == 0.0;
    RingStress stress;
    stress.hoop_bore_mpa =
        spin / 4.0 * ((3.0 + nu) * ro * ro + (1.0 - nu) * ri * ri) * (solid ? 0.5 : 1.0);
    stress.hoop_rim_mpa = spin / 4.0 * ((3.0 + nu) * ri * ri + (1.0 - nu) * ro * ro);
    stress.radial_most_mpa = spin * (3.0 + nu) / 8.0 * (ro - ri) * (ro - ri);
    stress.radial_most_dia = std::sqrt(ring.bore * ring.od);
    stress.mean_hoop_mpa = spin * (ri * ri + ri * ro + ro * ro) / 3.0;
    stress.rim_speed_m_s = radians_per_second(rpm) * ro * 1e-3;
    return stress;
}

Result<double> first_yield_rpm(const SpinningRing& ring, double yield_mpa) {
    return rpm_where(ring, yield_mpa, &RingStress::hoop_bore_mpa);
}

Result<double> fully_plastic_rpm(const SpinningRing& ring, double strength_mpa) {
    return rpm_where(ring, strength_mpa, &RingStress::mean_hoop_mpa);
}

Result<double> thin_rim_speed_m_s(double density_kg_m3, double stress_mpa) {
    const Domain domain =
        Domain().positive("density", density_kg_m3).not_negative("stress", stress_mpa);
    if (!domain) return domain.why();
    return std::sqrt(stress_mpa * 1e6 / density_kg_m3);
}

double diameter_of_rim_speed(double speed_m_s, double rpm) {
    return 2000.0 * speed_m_s / radians_per_second(rpm);
}

Result<RingInertia> ring_inertia(double bore, double od, double length, double density_kg_m3) {
    const Domain domain = Domain()
                              .tube("bore", bore, "outside diameter", od)
                              .not_negative("length", length)
                              .not_negative("density", density_kg_m3);
    if (!domain) return domain.why();
    const double volume_mm3 = std::numbers::pi / 4.0 * (od * od - bore * bore) * length;
    return weighed_ring_inertia(bore, od, density_kg_m3 * volume_mm3 * 1e-9);
}

Result<RingInertia> weighed_ring_inertia(double bore, double od, double mass_kg) {
    const Domain domain =
        Domain().tube("bore", bore, "outside diameter", od).not_negative("mass", mass_kg);
    if (!domain) return domain.why();
    return RingInertia{mass_kg, mass_kg * (od * od + bore * bore) / 8.0 * 1e-6};
}

RingInertia operator+(const RingInertia& one, const RingInertia& other) {
    return {one.mass_kg + other.mass_kg, one.inertia_kg_m2 + other.inertia_kg_m2};
}

RingInertia about_axis_at(const RingInertia& body, double distance) {
    return {body.mass_kg, body.inertia_kg_m2 + body.mass_kg * distance * distance * 1e-6};
}

double torque_for_acceleration_n_mm(const RingInertia& body, double rad_s2) {
    return body.inertia_kg_m2 * rad_s2 * 1e3;
}

SpinUp spin_up(const RingInertia& body, double torque_n_mm, double rpm) {
    const double w = radians_per_second(rpm);
    return {body.inertia_kg_m2 * w * 1e3 / torque_n_mm, body.inertia_kg_m2 * w * w / 2.0};
}

}  // namespace trialfit::trade
