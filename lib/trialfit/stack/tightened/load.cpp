// SPDX-License-Identifier: MIT
#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <trialfit/stack/tightened/load.hpp>
#include <trialfit/trade/cone/cone_joint.hpp>
#include <trialfit/trade/fastening/thread_strength.hpp>
#include <trialfit/trade/fastening/torque.hpp>

namespace trialfit::stack {

namespace {

constexpr double kUnknown = std::numeric_limits<double>::quiet_NaN();
// What is not known at one corner of the ranges is not known over all of them.
constexpr Estimate kNotKnown{kUnknown, kUnknown, kUnknown};
// No source: what workshop tables of dry to lightly oiled steel commonly span.
constexpr Estimate kUsualThread{0.10, 0.15, 0.20};
constexpr Estimate kUsualCone{0.10, 0.125, 0.15};
constexpr double kHair_mm = 1e-3;
constexpr double kShearShare = 0.5;  // of the tensile strength, FED-STD-H28/2B

void load_thread(const Joint& joint, const Corner& at, Load& load) {
    const trade::ThreadForm& form = joint.form;
    const trade::Friction friction{.thread = at.thread_friction, .face = at.face_friction};
    load.preload_n =
        trade::preload_for_torque_N(form, at.torque_nm * 1e3, friction, at.face_mean_mm);
    load.thread_stress_mpa =
        load.preload_n / trade::allowed_preload_N(form, 1.0, at.thread_friction, 1.0);
}

void load_flanks(const Joint& joint, const Corner& at, Load& load) {
    load.bolt_strip_share = load.nut_strip_share = load.nut_proof_share = kUnknown;
    if (joint.nut_proof_load) load.nut_proof_share = load.preload_n / joint.nut_proof_load->value;
    if (!joint.strength) return;
    // Where no thread may be left at all, the share is that of a hair's breadth: beyond every
    // limit, and a number.
    const double engaged = std::max(at.engaged_mm, kHair_mm);
    load.bolt_strip_share =
        load.preload_n / trade::strip_load_N(joint.strip_areas.bolt_mm2_per_mm, engaged,
                                             kShearShare * joint.strength->bolt_mpa.value);
    load.nut_strip_share =
        load.preload_n / trade::strip_load_N(joint.strip_areas.nut_mm2_per_mm, engaged,
                                             kShearShare * joint.strength->nut_mpa.value);
}

trade::ConeBearing cone_at(const Joint& joint, const Contact& contact) {
    return {.taper = joint.taper, .mean_dia = contact.mean_dia, .length = contact.length};
}

// NaN where the metals or the ring round the cone are not known.
double draw_up_mm(const Joint& joint, const Contact& contact, double cone_friction,
                  double preload_n) {
    if (std::isnan(contact.length) || std::isnan(preload_n)) return kUnknown;
    if (joint.hub_od <= contact.mean_dia || !joint.shaft_elastic || !joint.hub_elastic)
        return kUnknown;
    const trade::ConeBodies bodies{.shaft_bore = joint.shaft_bore,
                                   .hub_od = joint.hub_od,
                                   .shaft = *joint.shaft_elastic,
                                   .hub = *joint.hub_elastic};
    const auto press =
        trade::press_from_force(cone_at(joint, contact), bodies, cone_friction, preload_n);
    return press ? press->draw_up : kUnknown;
}

void load_cone(const Joint& joint, const Corner& at, Load& load) {
    load.cone_torque_nm = load.pull_off_n = load.cone_pressure_mpa = kUnknown;
    load.hub_hoop_mpa = load.hub_stress_mpa = kUnknown;
    load.draw_up_mm = draw_up_mm(joint, at.contact, at.cone_friction, load.preload_n);
    if (std::isnan(at.contact.length) || std::isnan(load.preload_n)) return;
    const trade::ConeBearing cone = cone_at(joint, at.contact);
    const trade::ConeGrip grip = trade::cone_grip(cone, at.cone_friction, load.preload_n).value();
    load.cone_torque_nm = grip.torque_n_mm / 1e3;
    load.pull_off_n = grip.pull_off_force_n;
    load.cone_pressure_mpa = trade::cone_pressure_mpa(cone, grip.normal_force_n).value();
    if (joint.hub_od <= at.contact.mean_dia) return;
    const trade::TubeStress bore =
        trade::tube_stress(at.contact.mean_dia, joint.hub_od, load.cone_pressure_mpa, 0.0,
                           at.contact.mean_dia)
            .value();
    load.hub_hoop_mpa = bore.hoop_mpa;
    load.hub_stress_mpa = trade::von_mises_mpa(bore);
}

std::array<double, 2> ends(const Estimate& range) {
    return {range.least, range.greatest};
}

// over_all() of the draw-up, and the same figures. What the contact leaves open, it rises with the
// preload and falls with the cone's friction, each step of its formula rounding the same way; so
// its extremes are those of the contacts at two corners.
Estimate draw_up_over_all(const Joint& joint, const Tightening& tightening) {
    const auto preload = [&](double torque_nm, double thread, double face, double mean_mm) {
        return trade::preload_for_torque_N(joint.form, torque_nm * 1e3,
                                           {.thread = thread, .face = face}, mean_mm);
    };
    const double middle =
        draw_up_mm(joint, joint.contact, tightening.cone_friction.middle,
                   preload(tightening.torque_nm.middle, tightening.thread_friction.middle,
                           tightening.face_friction.middle, joint.face_mean.middle));
    if (std::isnan(middle)) return kNotKnown;
    double least_n = std::numeric_limits<double>::infinity();
    double greatest_n = 0.0;
    for (const double torque : ends(tightening.torque_nm))
        for (const double thread : ends(tightening.thread_friction))
            for (const double face : ends(tightening.face_friction))
                for (const double mean : ends(joint.face_mean)) {
                    const double force = preload(torque, thread, face, mean);
                    least_n = std::min(least_n, force);
                    greatest_n = std::max(greatest_n, force);
                }
    Estimate found{.least = std::numeric_limits<double>::infinity(),
                   .middle = middle,
                   .greatest = -std::numeric_limits<double>::infinity()};
    for (const Contact& contact : joint.contacts) {
        const double least = draw_up_mm(joint, contact, tightening.cone_friction.greatest, least_n);
        const double greatest =
            draw_up_mm(joint, contact, tightening.cone_friction.least, greatest_n);
        if (std::isnan(least) || std::isnan(greatest)) return kNotKnown;
        found.least = std::min(found.least, least);
        found.greatest = std::max(found.greatest, greatest);
    }
    return found;
}

}  // namespace

Load load_at(const Joint& joint, const Corner& corner) {
    Load load;
    load_thread(joint, corner, load);
    load_flanks(joint, corner, load);
    load_cone(joint, corner, load);
    return load;
}

Estimate over_all(const Joint& joint, const Tightening& tightening, double Load::*figure) {
    const Corner middle{.torque_nm = tightening.torque_nm.middle,
                        .thread_friction = tightening.thread_friction.middle,
                        .face_friction = tightening.face_friction.middle,
                        .cone_friction = tightening.cone_friction.middle,
                        .face_mean_mm = joint.face_mean.middle,
                        .engaged_mm = joint.engaged.middle,
                        .contact = joint.contact};
    Estimate found{.least = std::numeric_limits<double>::infinity(),
                   .middle = load_at(joint, middle).*figure,
                   .greatest = -std::numeric_limits<double>::infinity()};
    if (std::isnan(found.middle)) return kNotKnown;
    Corner at;
    for (const double torque : ends(tightening.torque_nm))
        for (const double thread : ends(tightening.thread_friction))
            for (const double face : ends(tightening.face_friction))
                for (const double cone : ends(tightening.cone_friction))
                    for (const double mean : ends(joint.face_mean))
                        for (const double engaged : ends(joint.engaged))
                            for (const Contact& contact : joint.contacts) {
                                at = {torque, thread, face, cone, mean, engaged, contact};
                                const double value = load_at(joint, at).*figure;
                                if (std::isnan(value)) return kNotKnown;
                                found.least = std::min(found.least, value);
                                found.greatest = std::max(found.greatest, value);
                            }
    return found;
}

std::optional<DrawUpLacks> friction_missing(const job::SeatService& service) {
    if (!service.thread_friction) return DrawUpLacks::thread_friction;
    if (!service.under_nut_friction) return DrawUpLacks::under_nut_friction;
    if (!service.cone_friction) return DrawUpLacks::cone_friction;
    return std::nullopt;
}

Tightening tightening_of(const job::SeatService& service) {
    const auto range = [](const std::optional<job::Span>& given, const Estimate& otherwise) {
        if (!given) return otherwise;
        return Estimate{given->least, (given->least + given->greatest) / 2.0, given->greatest};
    };
    return {.torque_nm = range(service.nut_torque_nm, {}),
            .thread_friction = range(service.thread_friction, kUsualThread),
            .face_friction = range(service.under_nut_friction, kUsualThread),
            .cone_friction = range(service.cone_friction, kUsualCone)};
}

std::variant<DrawUp, DrawUpUnknown> draw_up(const Model& model) {
    const job::Job& job = model.job();
    if (!job.seat) return DrawUpLacks::seat_section;
    if (!job.seat->nut_torque_nm) return DrawUpLacks::nut_torque;
    if (const auto missing = friction_missing(*job.seat)) return *missing;
    const auto made = joint_of(model);
    if (const auto* none = std::get_if<job::Complaints>(&made)) return none->front();
    const auto& joint = std::get<Joint>(made);
    const Tightening tightening = tightening_of(*job.seat);
    const Estimate travel = draw_up_over_all(joint, tightening);
    const bool known = std::isfinite(travel.least) && std::isfinite(travel.middle) &&
                       std::isfinite(travel.greatest) && travel.least >= 0.0;
    if (std::isnan(joint.contact.length)) return DrawUpLacks::contact;
    if (std::isnan(joint.face_mean.middle)) return DrawUpLacks::nut_face;
    if (!known) return joint.hub_od <= 0.0 ? DrawUpLacks::ring_round_cone : DrawUpLacks::materials;
    const double mm = quantity::mm_per(job.units);
    return DrawUp{.hub = joint.who.hub,
                  .travel = {travel.least / mm, travel.middle / mm, travel.greatest / mm}};
}

}  // namespace trialfit::stack
