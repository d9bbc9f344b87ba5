// SPDX-License-Identifier: MIT
#include <algorithm>
#include <cmath>
#include <optional>
#include <trialfit/stack/check/cone_reach.hpp>

namespace trialfit::stack {

namespace {

// The length that both cones have in common, file units, of a hub that stands `off` outboard of
// its shaft's gauge plane. Less than nothing: by how much they miss each other.
double common_length(double off, const job::Cone& hub, const job::Cone& shaft) {
    return std::min(shaft.length.size.nominal, off + hub.length.size.nominal) - std::max(0.0, off);
}

std::optional<ConesMiss> miss_of(const job::Job& job, job::ConeRef hub_ref,
                                 job::ConeRef shaft_ref) {
    const job::Cone& hub = job::at(job, hub_ref);
    const job::Cone& shaft = job::at(job, shaft_ref);
    const quantity::Size& inside = hub.dia.size;
    const quantity::Size& outside = shaft.dia.size;
    constexpr double kSame = 1e-12;
    if (inside.is_unmeasured() || outside.is_unmeasured() ||
        std::abs(hub.taper - shaft.taper) > kSame)
        return std::nullopt;
    const auto off = [&](double of_shaft, double of_hub) {
        return (of_shaft - of_hub) / shaft.taper;
    };
    // Least at an end of where the hub may stand, since it rises and falls but once.
    const double worst = std::min(common_length(off(outside.lower, inside.upper), hub, shaft),
                                  common_length(off(outside.upper, inside.lower), hub, shaft));
    if (worst > 0.0) return std::nullopt;
    const double nominal = off(outside.nominal, inside.nominal);
    return ConesMiss{.hub = job::cone_name(job, hub_ref),
                     .shaft = job::cone_name(job, shaft_ref),
                     .too_narrow = nominal * shaft.taper > 0.0,
                     .surely = common_length(nominal, hub, shaft) <= 0.0};
}

}  // namespace

std::vector<ConesMiss> cones_that_miss(const job::Job& job) {
    std::vector<ConesMiss> out;
    for (const job::PartId p : job::indices(job.parts))
        for (const job::Seat& seat : job.parts[p.at()].seats) {
            if (seat.kind != job::SeatKind::cone_on_cone) continue;
            if (auto miss = miss_of(job, {p, seat.own_cone}, seat.on_cone))
                out.push_back(std::move(*miss));
        }
    return out;
}

}  // namespace trialfit::stack
