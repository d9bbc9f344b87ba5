// SPDX-License-Identifier: MIT
#include <trialfit/plan/job/as_read.hpp>

#include <algorithm>
#include <cstddef>
#include <utility>

namespace trialfit::plan {

namespace {

const job::Part& part_of(const job::Job& job, int part) {
    return job.parts.at(static_cast<std::size_t>(part));
}

// The gauge of the size between the two faces, else of any size that leads to the face.
int gauge_before(const job::Part& part, const job::Cut& cut) {
    int any = -1;
    for (const auto& [face, from] : {std::pair(cut.face, cut.measure), {cut.measure, cut.face}})
        for (const job::Dimension& size :
             part.faces.at(static_cast<std::size_t>(face)).dimensions) {
            if (size.from == from && size.distance.gauge >= 0) return size.distance.gauge;
            if (face == cut.face && any < 0) any = size.distance.gauge;
        }
    return any;
}

double gauge_half_width(const job::Job& job, int gauge) {
    return gauge < 0 ? 0.0 : job.gauges.at(static_cast<std::size_t>(gauge)).half_width;
}

void read(NewLength& length, double gauge) {
    length.holds = std::max(length.holds, gauge);
    length.read = gauge > 0.0;
}

}  // namespace

int gauge_for(const job::Job& job, const Work& work) {
    if (const auto* face = std::get_if<FaceCut>(&work))
        return face->cut->read_by >= 0 ? face->cut->read_by
                                       : gauge_before(part_of(job, face->part), *face->cut);
    const auto* ring = std::get_if<RingSkim>(&work);
    if (ring == nullptr) return -1;
    if (ring->skim->read_by >= 0) return ring->skim->read_by;
    const job::Ring& turned =
        part_of(job, ring->part).rings.at(static_cast<std::size_t>(ring->skim->ring));
    return (ring->skim->bore ? turned.bore : turned.outside).gauge;
}

Demands as_read(const job::Job& job, Demands demands) {
    for (Work& work : demands.works) {
        const double gauge = gauge_half_width(job, gauge_for(job, work));
        if (auto* face = std::get_if<FaceCut>(&work)) read(face->length, gauge);
        if (auto* ring = std::get_if<RingSkim>(&work)) {
            const double held = ring->length.holds;
            read(ring->length, gauge);
            ring->most -= ring->length.holds - held;
        }
    }
    return demands;
}

}  // namespace trialfit::plan
