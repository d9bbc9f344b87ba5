// SPDX-License-Identifier: MIT
#include <algorithm>
#include <cmath>
#include <cstddef>
#include <limits>
#include <trialfit/job/former.hpp>
#include <utility>

namespace trialfit::job {

namespace {

std::size_t at(int i) {
    return static_cast<std::size_t>(i);
}

// Where a face lies from the part's zero, by the first sizes that lead there.
struct Spot {
    double nominal = std::numeric_limits<double>::quiet_NaN();
    double middle = std::numeric_limits<double>::quiet_NaN();
    double half_width = 0.0;
};

Spot beside(const Spot& other, const quantity::Size& size, double way) {
    return {.nominal = other.nominal + way * size.nominal,
            .middle = other.middle + way * size.middle(),
            .half_width = other.half_width + size.half_width()};
}

constexpr Spot kRoot{.nominal = 0.0, .middle = 0.0};

// From one face outwards, each face by the first size that leads there; sizes that could not be
// read lead on as NaN. `measured`: only sizes that somebody has measured lead on.
std::vector<Spot> spots_from(const Part& part, std::size_t root, bool measured) {
    struct Lead {
        std::size_t to;
        const quantity::Size* size;
        double way;
    };
    std::vector<std::vector<Lead>> leads(part.faces.size());
    std::vector<Spot> spots(part.faces.size());
    std::vector<bool> met(part.faces.size(), false);
    for (std::size_t f = 0; f < part.faces.size(); ++f)
        for (const Dimension& each : part.faces[f].dimensions) {
            if (each.from < 0 || (measured && each.distance.size.is_unmeasured())) continue;
            leads[at(each.from)].push_back({f, &each.distance.size, 1.0});
            leads[f].push_back({at(each.from), &each.distance.size, -1.0});
        }
    if (root >= part.faces.size()) return spots;
    spots[root] = kRoot;
    met[root] = true;
    std::vector<std::size_t> open{root};
    for (std::size_t next = 0; next < open.size(); ++next)
        for (const Lead& lead : leads[open[next]]) {
            if (met[lead.to]) continue;
            met[lead.to] = true;
            spots[lead.to] = beside(spots[open[next]], *lead.size, lead.way);
            open.push_back(lead.to);
        }
    return spots;
}

std::vector<Spot> spots_of(const Part& part) {
    std::size_t zero = 0;
    while (zero < part.faces.size() && !part.faces[zero].zero)
        ++zero;
    return spots_from(part, zero, false);
}

// A cut's face, from the face that it is measured from. A part of which a size is unmeasured may
// have both measured from each other all the same, on a way that leaves that size out.
Spot from_measure(const Part& part, const Cut& cut) {
    const std::vector<Spot> spots = spots_of(part);
    const Spot& own = spots.at(at(cut.face));
    const Spot& other = spots.at(at(cut.measure));
    // A way that both share is counted twice: too much rather than too little.
    const Spot apart{.nominal = own.nominal - other.nominal,
                     .middle = own.middle - other.middle,
                     .half_width = own.half_width + other.half_width};
    if (std::isfinite(apart.nominal)) return apart;
    return spots_from(part, at(cut.measure), true).at(at(cut.face));
}

bool ends_beyond(const RingEnd& end, FaceId face) {
    return end.face == face && end.beyond != 0.0;
}

bool stands_off(const Job& job, FaceRef face) {
    for (std::size_t p = 0; p < job.parts.size(); ++p) {
        for (const Seat& seat : job.parts[p].seats) {
            if (seat.kind != SeatKind::face_at_offset) continue;
            const FaceRef own{.part = static_cast<int>(p), .face = seat.own};
            if (own == face || seat.against == face) return true;
        }
    }
    return false;
}

}  // namespace

std::vector<double> nominal_positions(const Part& part) {
    std::vector<double> positions;
    positions.reserve(part.faces.size());
    for (const Spot& spot : spots_of(part))
        positions.push_back(spot.nominal);
    return positions;
}

const Cut* cut_of(const Job& job, FaceRef face) {
    if (face.part < 0) return nullptr;
    const std::vector<Cut>& cuts = job.parts.at(at(face.part)).cuts;
    const auto found = std::find_if(cuts.begin(), cuts.end(),
                                    [&](const Cut& cut) { return cut.face == face.face; });
    return found == cuts.end() ? nullptr : &*found;
}

double outboard_sign(const Part& part, const Cut& cut) {
    const bool inboard_of_it =
        std::any_of(part.rings.begin(), part.rings.end(), [&](const Ring& ring) {
            return ring.inboard.face == cut.face && ring.outboard.face == cut.measure;
        });
    const double apart = from_measure(part, cut).nominal;
    if (!std::isfinite(apart)) return inboard_of_it ? -1.0 : 1.0;
    return apart < 0.0 ? -1.0 : 1.0;
}

double thickness(const Part& part, const Cut& cut) {
    return std::abs(from_measure(part, cut).nominal);
}

double greatest_thickness(const Part& part, const Cut& cut) {
    for (const auto& [face, from] : {std::pair(cut.face, cut.measure), {cut.measure, cut.face}})
        for (const Dimension& size : part.faces.at(at(face)).dimensions)
            if (size.from == from)
                return std::max(std::abs(size.distance.size.lower),
                                std::abs(size.distance.size.upper));
    const Spot apart = from_measure(part, cut);
    return std::abs(apart.middle) + apart.half_width;
}

double least_thickness(const Part& part, const Cut& cut) {
    for (const auto& [face, from] : {std::pair(cut.face, cut.measure), {cut.measure, cut.face}})
        for (const Dimension& size : part.faces.at(at(face)).dimensions)
            if (size.from == from)
                return std::min(std::abs(size.distance.size.lower),
                                std::abs(size.distance.size.upper));
    const Spot apart = from_measure(part, cut);
    return std::abs(apart.middle) - apart.half_width;
}

std::optional<GaugeId> gauge_of(const Part& part, const Cut& cut) {
    if (cut.read_by) return cut.read_by;
    std::optional<int> any;
    for (const auto& [face, from] : {std::pair(cut.face, cut.measure), {cut.measure, cut.face}})
        for (const Dimension& size : part.faces.at(at(face)).dimensions) {
            if (size.from == from && size.distance.gauge) return size.distance.gauge;
            if (face == cut.face && !any) any = size.distance.gauge;
        }
    return any;
}

bool measured_by_others(const Job& job, FaceRef face) {
    const Part& part = job.parts.at(at(face.part));
    const Face& own = part.faces.at(at(face.face));
    if (own.zero || own.dimensions.size() > 1) return true;
    const auto from_it = [&](const Face& other) {
        return std::any_of(other.dimensions.begin(), other.dimensions.end(),
                           [&](const Dimension& size) { return size.from == face.face; });
    };
    const auto gauged_at_it = [&](const Cone& cone) { return cone.at_face == face.face; };
    const auto beyond_it = [&](const Ring& ring) {
        return ends_beyond(ring.inboard, face.face) || ends_beyond(ring.outboard, face.face);
    };
    return std::any_of(part.faces.begin(), part.faces.end(), from_it) ||
           std::any_of(part.cones.begin(), part.cones.end(), gauged_at_it) ||
           std::any_of(part.rings.begin(), part.rings.end(), beyond_it) || stands_off(job, face);
}

std::string former_name(const Part& part, FaceId face) {
    const std::string name = part.faces.at(at(face)).name + "_before_cut";
    std::string free = name;
    const auto taken = [&] {
        return std::any_of(part.faces.begin(), part.faces.end(),
                           [&](const Face& each) { return each.name == free; });
    };
    for (int n = 2; taken(); ++n)
        free = name + "_" + std::to_string(n);
    return free;
}

}  // namespace trialfit::job
