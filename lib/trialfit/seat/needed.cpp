// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <cstddef>
#include <trialfit/seat/needed.hpp>
#include <trialfit/stack/bounds.hpp>
#include <trialfit/stack/metal.hpp>
#include <trialfit/stack/tightened/load.hpp>
#include <trialfit/stack/turning_body.hpp>
#include <variant>

namespace trialfit::seat {

namespace {

void spin(const job::Job& job, const job::Part& part, const job::Ring& ring,
          const stack::Metal& metal, TurningHub& found) {
    if (!job.seat->speed_rpm || !metal.poisson) return;
    const double mm = quantity::mm_per(job.units);
    const auto stress = trade::spinning_ring({.bore = ring.bore.size.nominal * mm,
                                              .od = ring.outside.size.nominal * mm,
                                              .density_kg_m3 = metal.density_kg_m3->value,
                                              .poisson = metal.poisson->value},
                                             job.seat->speed_rpm->greatest);
    if (!stress) return;
    if (found.spinning && found.spinning->hoop_bore_mpa >= stress->hoop_bore_mpa) return;
    found.spinning = *stress;
    found.spinning_ring = part.name + "." + ring.name;
}

}  // namespace

TurningHub turning(const stack::Model& model, job::PartId hub) {
    const job::Job& job = model.job();
    TurningHub found;
    for (const job::PartId p : job::indices(job.parts)) {
        const job::Part& part = job.parts.at(static_cast<std::size_t>(p));
        if (p != hub && !(part.turns && model.carries(hub, p))) continue;
        const auto body = stack::body_of(model, p, stack::Extent::nominal);
        if (const auto* const lacking = std::get_if<NotCounted>(&body)) {
            found.not_counted.push_back(*lacking);
            continue;
        }
        found.counted.push_back(part.name);
        found.body = found.body + std::get<trade::RingInertia>(body);
        const stack::Metal metal = stack::metal(job, p);
        for (const job::Ring& ring : part.rings)
            spin(job, part, ring, metal, found);
    }
    return found;
}

TorqueNeeded needed(const job::SeatService& service, const TurningHub& turning) {
    TorqueNeeded found;
    found.friction_assumed = stack::friction_missing(service).has_value();
    if (service.crank_acceleration_rad_s2 && !turning.not_counted.empty())
        found.unknown = turning.not_counted.front();
    if (service.crank_acceleration_rad_s2 && !turning.counted.empty()) {
        const job::Span& given = *service.crank_acceleration_rad_s2;
        found.torque_nm = trade::torque_for_acceleration_n_mm(turning.body, given.greatest) / 1e3;
        found.source = fmt::format(
            "inertia {:.4g} kg m2 (rings and densities) times {:.6g} rad/s2 "
            "of line {}",
            turning.body.inertia_kg_m2, given.greatest, given.at.line);
    }
    if (service.engine_torque_nm &&
        service.engine_torque_nm->greatest >= found.torque_nm.value_or(0.0)) {
        found.torque_nm = service.engine_torque_nm->greatest;
        found.source = fmt::format("engine_torque, line {}", service.engine_torque_nm->at.line);
    }
    return found;
}

}  // namespace trialfit::seat
