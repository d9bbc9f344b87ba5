// SPDX-License-Identifier: MIT
#include <trialfit/plan/job/as_read.hpp>

#include <algorithm>
#include <cstddef>
#include <trialfit/job/former.hpp>
#include <utility>

namespace trialfit::plan {

namespace {

const job::Part& part_of(const job::Job& job, job::PartId part) {
    return job.parts.at(static_cast<std::size_t>(part));
}

double gauge_half_width(const job::Job& job, std::optional<job::GaugeId> gauge) {
    return gauge ? job.gauges.at(static_cast<std::size_t>(*gauge)).half_width : 0.0;
}

// What must remain has to remain of the reading, too: of a face or a ring.
template <typename Turned>
void read(Turned& work, double gauge) {
    const double held = work.length.holds;
    work.length.holds = std::max(held, gauge);
    work.length.read = gauge > 0.0;
    work.most -= work.length.holds - held;
}

}  // namespace

std::optional<job::GaugeId> gauge_for(const job::Job& job, const Work& work) {
    if (const auto* face = std::get_if<FaceCut>(&work))
        return job::gauge_of(part_of(job, face->part), *face->cut);
    const auto* ring = std::get_if<RingSkim>(&work);
    if (ring == nullptr) return std::nullopt;
    if (ring->skim->read_by) return ring->skim->read_by;
    const job::Ring& turned =
        part_of(job, ring->part).rings.at(static_cast<std::size_t>(ring->skim->ring));
    return (ring->skim->bore ? turned.bore : turned.outside).gauge;
}

Demands as_read(const job::Job& job, Demands demands) {
    for (Work& work : demands.works) {
        const double gauge = gauge_half_width(job, gauge_for(job, work));
        if (auto* face = std::get_if<FaceCut>(&work)) read(*face, gauge);
        if (auto* ring = std::get_if<RingSkim>(&work)) read(*ring, gauge);
    }
    return demands;
}

}  // namespace trialfit::plan
