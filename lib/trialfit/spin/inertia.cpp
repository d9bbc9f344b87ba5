// SPDX-License-Identifier: MIT
#include <algorithm>
#include <cmath>
#include <cstddef>
#include <trialfit/spin/inertia.hpp>
#include <trialfit/stack/metal.hpp>
#include <trialfit/stack/turning_body.hpp>
#include <utility>
#include <variant>

namespace trialfit::spin {

namespace {

bool part_turns(const job::Job& job, job::PartId part) {
    return part >= 0 && job.parts.at(static_cast<std::size_t>(part)).turns;
}

bool is_shaft(const job::Job& job, const job::Part& part) {
    return std::none_of(part.seats.begin(), part.seats.end(),
                        [&job](const job::Seat& seat) { return part_turns(job, seat.below()); });
}

Estimate middle_of(const job::Span& span) {
    return {span.least, (span.least + span.greatest) / 2.0, span.greatest};
}

void add(Estimate& sum, const Estimate& one) {
    sum.least += one.least;
    sum.middle += one.middle;
    sum.greatest += one.greatest;
}

void count(const stack::Model& model, job::PartId part, WhatTurns& found) {
    const auto body = [&](stack::Extent how) { return stack::body_of(model, part, how); };
    const auto nominal = body(stack::Extent::nominal);
    const auto least = body(stack::Extent::least);
    const auto greatest = body(stack::Extent::greatest);
    for (const auto* each : {&nominal, &least, &greatest})
        if (const auto* const lacking = std::get_if<stack::NotCounted>(each)) {
            found.not_counted.push_back(*lacking);
            return;
        }
    const auto of = [&](double trade::RingInertia::*figure) {
        const double middle = std::get<trade::RingInertia>(nominal).*figure;
        // A nominal may lie beyond the limits.
        return Estimate{std::min(std::get<trade::RingInertia>(least).*figure, middle), middle,
                        std::max(std::get<trade::RingInertia>(greatest).*figure, middle)};
    };
    const stack::Metal metal = stack::metal(model.job(), part);
    found.inertia.parts.push_back(
        {.part = model.job().parts.at(static_cast<std::size_t>(part)).name,
         .material = metal.name,
         .density_kg_m3 = metal.density_kg_m3->value,
         .density_source = metal.density_kg_m3->source,
         .mass_kg = of(&trade::RingInertia::mass_kg),
         .inertia_kg_m2 = of(&trade::RingInertia::inertia_kg_m2)});
    add(found.inertia.known_kg_m2, found.inertia.parts.back().inertia_kg_m2);
}

void look_for_widest(const job::Job& job, const job::Part& part, WhatTurns& found) {
    const double mm = quantity::mm_per(job.units);
    for (const job::Ring& ring : part.rings) {
        const quantity::Size& od = ring.outside.size;
        if (od.is_unmeasured() || od.upper * mm <= found.widest_mm.greatest) continue;
        found.widest = part.name + "." + ring.name;
        found.widest_mm = {od.lower * mm, od.nominal * mm, od.upper * mm};
    }
}

}  // namespace

WhatTurns what_turns(const stack::Model& model) {
    const job::Job& job = model.job();
    WhatTurns found;
    for (const job::PartId p : job::indices(job.parts)) {
        const job::Part& part = job.parts.at(static_cast<std::size_t>(p));
        if (!part.turns) continue;
        look_for_widest(job, part, found);
        if (is_shaft(job, part))
            found.shafts.push_back(part.name);
        else
            count(model, p, found);
    }
    if (job.spin->crank_inertia_kg_m2) {
        found.inertia.crank_kg_m2 = middle_of(*job.spin->crank_inertia_kg_m2);
        add(found.inertia.known_kg_m2, *found.inertia.crank_kg_m2);
    }
    found.inertia.whole = found.inertia.crank_kg_m2 && found.not_counted.empty();
    return found;
}

}  // namespace trialfit::spin
