// SPDX-License-Identifier: MIT
#include <algorithm>
#include <cmath>
#include <cstddef>
#include <limits>
#include <trialfit/job/former.hpp>

namespace trialfit::job {

namespace {

std::size_t at(int i) {
    return static_cast<std::size_t>(i);
}

// One more pass over the sizes; whether any face was placed.
bool place_more(const Part& part, std::vector<double>& positions) {
    bool placed = false;
    for (std::size_t f = 0; f < part.faces.size(); ++f) {
        for (const Dimension& size : part.faces[f].dimensions) {
            if (size.from < 0) continue;
            double& own = positions[f];
            double& from = positions[at(size.from)];
            if (std::isnan(own) == std::isnan(from)) continue;
            placed = true;
            if (std::isnan(own)) {
                own = from + size.distance.size.nominal;
            } else {
                from = own - size.distance.size.nominal;
            }
        }
    }
    return placed;
}

bool ends_beyond(const RingEnd& end, int face) {
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
    std::vector<double> positions(part.faces.size(), std::numeric_limits<double>::quiet_NaN());
    for (std::size_t f = 0; f < part.faces.size(); ++f)
        if (part.faces[f].zero) positions[f] = 0.0;
    while (place_more(part, positions)) {
    }
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
    const std::vector<double> positions = nominal_positions(part);
    return positions.at(at(cut.face)) < positions.at(at(cut.measure)) ? -1.0 : 1.0;
}

double thickness(const Part& part, const Cut& cut) {
    const std::vector<double> positions = nominal_positions(part);
    return std::abs(positions.at(at(cut.face)) - positions.at(at(cut.measure)));
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

std::string former_name(const Part& part, int face) {
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
