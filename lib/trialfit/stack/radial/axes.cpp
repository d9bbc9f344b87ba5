// SPDX-License-Identifier: MIT
#include <algorithm>
#include <cmath>
#include <trialfit/stack/bounds.hpp>
#include <trialfit/stack/model/index.hpp>
#include <trialfit/stack/radial/axes.hpp>

namespace trialfit::stack {

namespace {

const job::Part& part_at(const Model& model, job::PartId part) {
    return model.job().parts.at(at(part));
}

job::PartId sits_on_part(const job::Part& part) {
    return part.seats.empty() ? job::PartId{} : part.seats.front().below();
}

// The part whose axis a part's own is near to.
job::PartId centred_on_part(const job::Part& part) {
    return part.centred ? part.centred->on : sits_on_part(part);
}

using Up = job::PartId (*)(const job::Part&);

// The parts from `from` up, as far as the job goes; a circle of centrings ends where it closes.
std::vector<job::PartId> upwards(const Model& model, job::PartId from, Up up) {
    std::vector<job::PartId> way;
    for (job::PartId part = from; part >= 0 && std::ranges::find(way, part) == way.end();
         part = up(part_at(model, part)))
        way.push_back(part);
    return way;
}

std::vector<job::PartId> way_between(const Model& model, job::PartId one, job::PartId other,
                                     Up up) {
    const std::vector<job::PartId> a = upwards(model, one, up);
    const std::vector<job::PartId> b = upwards(model, other, up);
    std::vector<job::PartId> way;
    for (const job::PartId part : a)
        if (std::ranges::find(b, part) == b.end()) way.push_back(part);
    for (const job::PartId part : b)
        if (std::ranges::find(a, part) == a.end()) way.push_back(part);
    return way;
}

// The lean of one part alone.
std::vector<Vector> lean_of(const Model& model, job::PartId index) {
    const job::Part& part = part_at(model, index);
    const RadialSizes& sizes = model.radial();
    if (part.face_runout)
        return {{.size = sizes.face_runout[at(index)], .share = 1.0 / part.face_runout->dia}};
    if (part.runout.size() < 2) return {};
    const Form apart = model.gap({.face = {index, part.runout[0].face.value()}},
                                 {.face = {index, part.runout[1].face.value()}});
    const double slope = 0.5 / value(model.ties().adjusted(apart), model.columns().nominal);
    return {{.size = sizes.runout[at(index)][0], .share = -slope},
            {.size = sizes.runout[at(index)][1], .share = slope}};
}

}  // namespace

std::vector<job::PartId> way_by_centring(const Model& model, job::PartId one, job::PartId other) {
    return way_between(model, one, other, centred_on_part);
}

std::vector<job::PartId> way_by_seats(const Model& model, job::PartId one, job::PartId other) {
    return way_between(model, one, other, sits_on_part);
}

void add_worst(const Vectors& vectors, double times, FormBuilder& into) {
    for (const auto* side : {&vectors.still, &vectors.turning}) {
        for (const Vector& each : *side) {
            into.add(each.size, times * std::abs(each.share));
            into.add(times * std::abs(each.share) * each.beyond);
        }
    }
}

bool says_how_it_leans(const job::Part& part) {
    return part.face_runout || part.runout.size() >= 2;
}

bool any_leans(const job::Job& job) {
    return std::ranges::any_of(job.parts, says_how_it_leans);
}

Vectors leans(const Model& model, job::PartId one, job::PartId other) {
    Vectors all;
    for (const job::PartId part : way_by_seats(model, one, other)) {
        auto& side = part_at(model, part).turns ? all.turning : all.still;
        for (const Vector& each : lean_of(model, part))
            side.push_back(each);
    }
    return all;
}

// The least and the greatest clearance each change by `opens`, and no further than to nothing.
WarmRegister warm_by(double opens, const quantity::Size& cold) {
    if (cold.lower + opens >= 0.0) return {.known = true, .adds = opens};
    const double greatest = std::max(0.0, cold.upper + opens);
    const double apart = cold.upper - cold.lower;
    if (apart <= 0.0) return {.known = true, .times = 0.0};
    return {.known = true, .adds = -cold.lower, .times = greatest / apart};
}

WarmRegister warm_register(const Model& model, job::PartId index) {
    const job::Part& part = part_at(model, index);
    if (!part.centred || part.centred->by != job::CentredBy::reg) return {};
    const job::Centring& centred = *part.centred;
    const job::Part& other = part_at(model, centred.on);
    const double slack = centred.clearance.size.upper + kRounding;
    const double warmer = model.growth(index) - model.growth(centred.on);
    const auto fits = [&](double bore, double outside) {
        return std::abs(bore - outside) <= slack;
    };
    for (const job::RingId r : job::indices(other.rings)) {
        if (job::ring_name(model.job(), {centred.on, r}) != centred.on_written) continue;
        const job::Ring& on = other.rings[at(r)];
        for (const job::Ring& own : part.rings) {
            const bool round_it = fits(own.bore.size.nominal, on.outside.size.nominal);
            if (!round_it && !fits(on.bore.size.nominal, own.outside.size.nominal)) continue;
            // Of the diameters, the still cold one of the ring that it is centred on.
            const double opens =
                round_it ? warmer * on.outside.size.nominal : -warmer * on.bore.size.nominal;
            return warm_by(opens, centred.clearance.size);
        }
    }
    return {};
}

}  // namespace trialfit::stack
