// SPDX-License-Identifier: MIT
#include <algorithm>
#include <cstddef>
#include <trialfit/job/complaint.hpp>
#include <trialfit/job/job.hpp>
#include <trialfit/quantity/characters.hpp>

namespace trialfit::job {

namespace {

const Part& part_at(const Job& job, PartId part) {
    return job.parts.at(static_cast<std::size_t>(part));
}

template <typename Ref>
std::string dotted(const Job& job, Ref ref) {
    return part_at(job, ref.part).name + "." + at(job, ref).name;
}

}  // namespace

bool any_error(const Complaints& complaints) {
    return std::any_of(complaints.begin(), complaints.end(),
                       [](const Complaint& c) { return c.severity == Severity::error; });
}

const Face& at(const Job& job, FaceRef face) {
    return part_at(job, face.part).faces.at(static_cast<std::size_t>(face.face));
}

const Ring& at(const Job& job, RingRef ring) {
    return part_at(job, ring.part).rings.at(static_cast<std::size_t>(ring.index));
}

const Cone& at(const Job& job, ConeRef cone) {
    return part_at(job, cone.part).cones.at(static_cast<std::size_t>(cone.index));
}

const Thread& at(const Job& job, ThreadRef thread) {
    return part_at(job, thread.part).threads.at(static_cast<std::size_t>(thread.index));
}

std::string name(const Job& job, FaceRef face) {
    return dotted(job, face);
}

std::string ring_name(const Job& job, RingRef ring) {
    return dotted(job, ring);
}

std::optional<FaceRef> face_named(const Job& job, std::string_view face) {
    for (const PartId p : indices(job.parts)) {
        const auto& faces = job.parts[static_cast<std::size_t>(p)].faces;
        for (const FaceId f : indices(faces))
            if (name(job, FaceRef{p, f}) == face) return FaceRef{p, f};
    }
    return std::nullopt;
}

std::optional<RingRef> ring_named(const Job& job, PartId part, std::string_view name) {
    const Part& of = part_at(job, part);
    if (!name.starts_with(of.name + ".")) return std::nullopt;
    const auto found = std::find_if(of.rings.begin(), of.rings.end(), [&](const Ring& ring) {
        return name.substr(of.name.size() + 1) == ring.name;
    });
    if (found == of.rings.end()) return std::nullopt;
    return RingRef{part, static_cast<int>(found - of.rings.begin())};
}

std::optional<RingRef> ring_named(const Job& job, std::string_view name) {
    for (const PartId p : indices(job.parts))
        if (const auto found = ring_named(job, p, name)) return found;
    return std::nullopt;
}

std::string thread_name(const Job& job, ThreadRef thread) {
    return dotted(job, thread);
}

std::string cone_name(const Job& job, ConeRef cone) {
    return dotted(job, cone);
}

std::string name(const Job& job, PartId part, RingEnd end) {
    std::string face = name(job, FaceRef{.part = part, .face = end.face});
    if (end.beyond == 0.0) return face;
    return face + (end.beyond > 0.0 ? " +" : " ") + quantity::six_digits(end.beyond);
}

}  // namespace trialfit::job
