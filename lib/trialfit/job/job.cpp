// SPDX-License-Identifier: MIT
#include <algorithm>
#include <cstddef>
#include <trialfit/job/complaint.hpp>
#include <trialfit/job/job.hpp>
#include <trialfit/quantity/characters.hpp>

namespace trialfit::job {

namespace {

const Part& part_at(const Job& job, int part) {
    return job.parts.at(static_cast<std::size_t>(part));
}

template <typename Item>
std::string dotted(const Part& part, const std::vector<Item>& items, int index) {
    return part.name + "." + items.at(static_cast<std::size_t>(index)).name;
}

}  // namespace

bool any_error(const Complaints& complaints) {
    return std::any_of(complaints.begin(), complaints.end(),
                       [](const Complaint& c) { return c.severity == Severity::error; });
}

std::string name(const Job& job, FaceRef face) {
    const Part& part = part_at(job, face.part);
    return dotted(part, part.faces, face.face);
}

std::string ring_name(const Job& job, FeatureRef ring) {
    const Part& part = part_at(job, ring.part);
    return dotted(part, part.rings, ring.index);
}

std::optional<FaceRef> face_named(const Job& job, std::string_view face) {
    for (int p = 0; p < static_cast<int>(job.parts.size()); ++p) {
        const auto& faces = job.parts[static_cast<std::size_t>(p)].faces;
        for (int f = 0; f < static_cast<int>(faces.size()); ++f)
            if (name(job, FaceRef{p, f}) == face) return FaceRef{p, f};
    }
    return std::nullopt;
}

std::optional<FeatureRef> ring_named(const Job& job, int part, std::string_view name) {
    const Part& of = part_at(job, part);
    if (!name.starts_with(of.name + ".")) return std::nullopt;
    const auto found = std::find_if(of.rings.begin(), of.rings.end(), [&](const Ring& ring) {
        return name.substr(of.name.size() + 1) == ring.name;
    });
    if (found == of.rings.end()) return std::nullopt;
    return FeatureRef{part, static_cast<int>(found - of.rings.begin())};
}

std::optional<FeatureRef> ring_named(const Job& job, std::string_view name) {
    for (int p = 0; p < static_cast<int>(job.parts.size()); ++p)
        if (const auto found = ring_named(job, p, name)) return found;
    return std::nullopt;
}

std::string thread_name(const Job& job, FeatureRef thread) {
    const Part& part = part_at(job, thread.part);
    return dotted(part, part.threads, thread.index);
}

std::string cone_name(const Job& job, FeatureRef cone) {
    const Part& part = part_at(job, cone.part);
    return dotted(part, part.cones, cone.index);
}

std::string name(const Job& job, int part, RingEnd end) {
    std::string face = name(job, FaceRef{.part = part, .face = end.face});
    if (end.beyond == 0.0) return face;
    return face + (end.beyond > 0.0 ? " +" : " ") + quantity::six_digits(end.beyond);
}

}  // namespace trialfit::job
