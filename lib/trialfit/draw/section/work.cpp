// SPDX-License-Identifier: MIT
#include <algorithm>
#include <cmath>
#include <cstddef>
#include <trialfit/draw/section/faces.hpp>
#include <trialfit/draw/section/section.hpp>
#include <trialfit/draw/section/stations.hpp>
#include <utility>

namespace trialfit::draw {

namespace {

// The datum of that face, listed once.
std::size_t datum_at(const std::string& face, const Point& at, Section& into) {
    const auto found = std::ranges::find(into.datums, face, &DatumFace::face);
    if (found != into.datums.end()) return static_cast<std::size_t>(found - into.datums.begin());
    into.datums.push_back({face, at});
    return into.datums.size() - 1;
}

FinishDrawn finish_of(const quantity::Size& size) {
    return {.finish = std::abs(size.nominal),
            .least = std::min(std::abs(size.lower), std::abs(size.upper)),
            .most = std::max(std::abs(size.lower), std::abs(size.upper))};
}

}  // namespace

void mark_removals(const stack::Model& model, const stack::Changes& changes, Section& before) {
    const Faces faces = faces_drawn(model).at;
    const job::Job job = with_rings_guessed(model.job());
    for (const stack::CutTo& cut : changes.cuts) {
        const auto p = cut.part.at();
        const job::Part& part = job.parts[p];
        const double old_face = faces[p][cut.face.at()];
        const double from = faces[p][cut.measure.at()];
        const double length = std::abs(cut.size.size.nominal);
        const double new_face = cut.by_amount ? old_face + cut.size.size.nominal
                                              : from + (old_face > from ? length : -length);
        const auto [z0, z1] = std::minmax(old_face, new_face);
        const double off = before.parts[p].off_place;
        std::vector<Solid> strips;
        for (const job::Ring& ring : part.rings)
            if (z1 > z0 && (ring.inboard.face == cut.face || ring.outboard.face == cut.face))
                strips.push_back(straight(z0 + off, z1 + off, ring.bore.size.nominal / 2.0,
                                          ring.outside.size.nominal / 2.0));
        before.removals.push_back(
            {united(strips).outline, job::name(job, {cut.part, cut.face}), z1 - z0, false, p});
    }
    for (const stack::SkimmedTo& skim : changes.skims) {
        const auto p = skim.ring.part.at();
        const job::Ring& ring = job.parts[p].rings[skim.ring.index.at()];
        const double old_dia = (skim.bore ? ring.bore : ring.outside).size.nominal;
        const auto [d0, d1] = std::minmax(old_dia, skim.size.size.nominal);
        const auto at = [&](const job::RingEnd& end) {
            return faces[p][end.face.at()] + end.beyond + before.parts[p].off_place;
        };
        const Solid strip = straight(at(ring.inboard), at(ring.outboard), d0 / 2.0, d1 / 2.0);
        before.removals.push_back(
            {{loop_of(strip)}, job::ring_name(job, skim.ring), d1 - d0, true, p});
    }
}

void mark_finishes(const stack::Model& model, const stack::Changes& changes, Section& after) {
    if (changes.cuts.empty() && changes.skims.empty()) return;
    const Faces faces = faces_drawn(model).at;
    const job::Job job = with_rings_guessed(model.job());
    for (const stack::CutTo& cut : changes.cuts) {
        if (cut.by_amount) continue;
        const auto p = cut.part.at();
        const double off = after.parts[p].off_place;
        const double r = dimension_radius(job, {cut.part, cut.measure}, {cut.part, cut.face});
        FinishDrawn made = finish_of(cut.size.size);
        made.of = job::name(job, {cut.part, cut.face});
        made.part = p;
        made.from = {faces[p][cut.measure.at()] + off, r};
        made.to = {faces[p][cut.face.at()] + off, r};
        made.datum = datum_at(job::name(job, {cut.part, cut.measure}), made.from, after);
        after.finishes.push_back(std::move(made));
    }
    for (const stack::SkimmedTo& skim : changes.skims) {
        const auto p = skim.ring.part.at();
        const job::Ring& ring = job::at(job, skim.ring);
        const auto end = [&](const job::RingEnd& of) { return faces[p][of.face.at()] + of.beyond; };
        FinishDrawn made = finish_of(skim.size.size);
        made.of = job::ring_name(job, skim.ring);
        made.part = p;
        made.to = {(end(ring.inboard) + end(ring.outboard)) / 2.0 + after.parts[p].off_place,
                   (skim.bore ? ring.bore : ring.outside).size.nominal / 2.0};
        made.from = made.to;
        after.finishes.push_back(std::move(made));
    }
}

}  // namespace trialfit::draw
