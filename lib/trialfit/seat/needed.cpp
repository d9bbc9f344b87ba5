// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <trialfit/seat/needed.hpp>
#include <trialfit/stack/bounds.hpp>
#include <trialfit/stack/metal.hpp>
#include <trialfit/stack/tightened/load.hpp>

namespace trialfit::seat {

namespace {

// A ring's section, mm: along the axis from the part's first face, and across it as diameters.
struct Section {
    double from = 0.0;
    double to = 0.0;
    double bore = 0.0;
    double od = 0.0;
};

std::vector<Section> sections(const stack::Model& model, int part) {
    const double mm = quantity::mm_per(model.job().units);
    std::vector<Section> found;
    for (const job::Ring& ring : model.job().parts.at(static_cast<std::size_t>(part)).rings) {
        const auto at = [&](const job::RingEnd& end) {
            const stack::Form along =
                model.gap({.face = {part, 0}},
                          stack::Station{.face = {part, end.face}, .beyond = end.beyond});
            return stack::bounds(model, along, 1.0).nominal * mm;
        };
        found.push_back({.from = at(ring.inboard),
                         .to = at(ring.outboard),
                         .bore = ring.bore.size.nominal * mm,
                         .od = ring.outside.size.nominal * mm});
    }
    return found;
}

// The same metal cut into slices in which no two sections overlap.
std::vector<Section> laid_apart(const std::vector<Section>& rings) {
    std::vector<double> cuts;
    for (const Section& each : rings) {
        cuts.push_back(each.from);
        cuts.push_back(each.to);
    }
    std::sort(cuts.begin(), cuts.end());
    std::vector<Section> apart;
    for (std::size_t i = 1; i < cuts.size(); ++i) {
        if (!(cuts[i] > cuts[i - 1])) continue;
        std::vector<Section> slice;
        for (const Section& each : rings)
            if (each.from <= cuts[i - 1] && each.to >= cuts[i])
                slice.push_back({cuts[i - 1], cuts[i], each.bore, each.od});
        std::sort(slice.begin(), slice.end(),
                  [](const Section& a, const Section& b) { return a.bore < b.bore; });
        double reached = 0.0;
        for (Section each : slice) {
            each.bore = std::max(each.bore, reached);
            if (each.od <= each.bore) continue;
            reached = each.od;
            apart.push_back(each);
        }
    }
    return apart;
}

void spin(const job::Job& job, const job::Part& part, const job::Ring& ring,
          const stack::Metal& metal, Turning& found) {
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

Turning turning(const stack::Model& model, int hub) {
    using Lacks = NotCounted::Lacks;
    const job::Job& job = model.job();
    Turning found;
    for (int p = 0; p < static_cast<int>(job.parts.size()); ++p) {
        const job::Part& part = job.parts.at(static_cast<std::size_t>(p));
        if (p != hub && !(part.turns && model.carries(hub, p))) continue;
        const stack::Metal metal = stack::metal(job, p);
        if (part.rings.empty() || !metal.density_kg_m3) {
            found.not_counted.push_back(
                {.part = part.name, .lacks = part.rings.empty() ? Lacks::rings : Lacks::density});
            continue;
        }
        const std::vector<Section> rings = sections(model, p);
        if (!std::all_of(rings.begin(), rings.end(), [](const Section& each) {
                return std::isfinite(each.from) && std::isfinite(each.to) &&
                       std::isfinite(each.bore) && std::isfinite(each.od);
            })) {
            found.not_counted.push_back({.part = part.name, .lacks = Lacks::lengths});
            continue;
        }
        found.counted.push_back(part.name);
        for (const Section& each : laid_apart(rings)) {
            const auto body = trade::ring_inertia(each.bore, each.od, each.to - each.from,
                                                  metal.density_kg_m3->value);
            if (body) found.body = found.body + *body;
        }
        for (const job::Ring& ring : part.rings)
            spin(job, part, ring, metal, found);
    }
    return found;
}

Needed needed(const job::SeatService& service, const Turning& turning) {
    Needed found;
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
