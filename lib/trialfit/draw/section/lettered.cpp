// SPDX-License-Identifier: MIT
#include <algorithm>
#include <cstddef>
#include <limits>
#include <optional>
#include <string>
#include <trialfit/draw/section/faces.hpp>
#include <trialfit/draw/section/lettered.hpp>
#include <trialfit/draw/section/stations.hpp>
#include <trialfit/stack/check/check.hpp>
#include <utility>

namespace trialfit::draw {

namespace {

// Where things of a job lie, each part where it should sit.
class Places {
public:
    explicit Places(const stack::Model& model) : job_(model.job()), z_(faces_drawn(model).at) {}

    // "plate.front": the part, and what stands behind the point.
    struct Named {
        std::size_t part = 0;
        std::string_view rest;
    };
    [[nodiscard]] std::optional<Named> part_of(std::string_view name) const {
        const std::size_t point = name.find('.');
        if (point == std::string_view::npos) return std::nullopt;
        for (std::size_t p = 0; p < job_.parts.size(); ++p)
            if (job_.parts[p].name == name.substr(0, point))
                return Named{p, name.substr(point + 1)};
        return std::nullopt;
    }

    // Where the face shows: as far from the axis as no metal of its part covers it.
    [[nodiscard]] std::optional<Point> face(const Named& name) const {
        const auto& faces = job_.parts[name.part].faces;
        const auto at = std::ranges::find(faces, name.rest, &job::Face::name);
        if (at == faces.end()) return std::nullopt;
        const double z = z_[name.part][static_cast<std::size_t>(at - faces.begin())];
        return Point{z, radius_at(name.part, z)};
    }

    [[nodiscard]] std::optional<Point> diameter(const Named& name, std::string_view which) const {
        const job::Part& part = job_.parts[name.part];
        for (const job::Ring& ring : part.rings) {
            if (ring.name != name.rest || which == "cone") continue;
            const job::Given& size = which == "bore" ? ring.bore : ring.outside;
            return Point{end(name.part, ring.outboard), size.size.nominal / 2.0};
        }
        for (const job::Cone& cone : part.cones)
            if (cone.name == name.rest && which == "cone")
                return Point{z_[name.part][cone.at_face.at()], cone.dia.size.nominal / 2.0};
        return std::nullopt;
    }

private:
    [[nodiscard]] double end(std::size_t part, const job::RingEnd& of) const {
        return z_[part][of.face.at()] + of.beyond;
    }
    // Whether metal lies on both sides of `z`, or on neither, at this radius.
    [[nodiscard]] bool shows(std::size_t part, double z, double r) const {
        constexpr double kNear = 1e-6;
        bool before = false;
        bool after = false;
        for (const job::Ring& ring : job_.parts[part].rings) {
            if (r <= ring.bore.size.nominal / 2.0 || r >= ring.outside.size.nominal / 2.0) continue;
            const double from = end(part, ring.inboard);
            const double to = end(part, ring.outboard);
            before = before || (from < z - kNear && to > z - kNear);
            after = after || (from < z + kNear && to > z + kNear);
        }
        return before != after;
    }
    [[nodiscard]] double radius_at(std::size_t part, double z) const {
        double best = 0.0;
        constexpr double kInside = 1e-6;
        for (const job::Ring& ring : job_.parts[part].rings)
            for (const job::Given* dia : {&ring.bore, &ring.outside}) {
                const double r = dia->size.nominal / 2.0;
                if (r > best && shows(part, z, r - kInside)) best = r;
            }
        return best;
    }

    const job::Job& job_;
    Faces z_;
};

// The extent of what a picture shows.
void measure_shown(Lettered& shown) {
    Section& section = shown.section;
    section.z_min = std::numeric_limits<double>::infinity();
    section.z_max = -section.z_min;
    section.r_max = 0.0;
    const auto see = [&section](const Point& point) {
        section.z_min = std::min(section.z_min, point.z);
        section.z_max = std::max(section.z_max, point.z);
        section.r_max = std::max(section.r_max, point.r);
    };
    for (const PartShape& part : section.parts)
        for (const Loop& loop : part.outline)
            std::ranges::for_each(loop, see);
    for (const SectionDimension& each : section.dimensions) {
        see(each.from);
        see(each.to);
    }
    for (const LetteredDiameter& each : shown.diameters)
        see(each.edge);
}

// The parts alone: nothing of what was found about the job.
Lettered picture_of(const Section& whole, std::optional<std::size_t> only) {
    Lettered out{.section = {.units = whole.units}};
    for (std::size_t p = 0; p < whole.parts.size(); ++p) {
        if (only && *only != p) continue;
        PartShape part = whole.parts[p];
        if (!part.in_place.empty()) part.outline = std::exchange(part.in_place, {});
        part.off_place = 0.0;
        out.section.parts.push_back(std::move(part));
    }
    if (only) out.part = whole.parts[*only].name;
    return out;
}

job::Complaints no_such(const LetterAt& letter) {
    return {{.fault = "letter " + std::string(letter.letter) +
                      " stands for what the job has not: " + std::string(letter.from) + ", " +
                      std::string(letter.to),
             .mend = "this is a fault of trialfit"}};
}

}  // namespace

std::variant<std::vector<Lettered>, job::Complaints> lettered(
    const job::Job& job, const std::vector<LetterAt>& letters) {
    auto whole = section(job, {});
    if (auto* complaints = std::get_if<job::Complaints>(&whole)) return std::move(*complaints);
    auto built = stack::model_for(job, {});
    if (auto* complaints = std::get_if<job::Complaints>(&built)) return std::move(*complaints);
    const Places places(std::get<stack::Model>(built));
    const Section& all = std::get<Section>(whole);
    std::vector<Lettered> parts;
    for (std::size_t p = 0; p < job.parts.size(); ++p)
        parts.push_back(picture_of(all, p));
    Lettered together = picture_of(all, std::nullopt);
    for (const LetterAt& each : letters) {
        const auto from = places.part_of(each.from);
        if (!from) return no_such(each);
        if (const auto edge = places.diameter(*from, each.to)) {
            parts[from->part].diameters.push_back({std::string(each.letter), *edge});
            continue;
        }
        const auto to = places.part_of(each.to);
        const auto one = places.face(*from);
        const auto other = to ? places.face(*to) : std::nullopt;
        if (!one || !other) return no_such(each);
        Lettered& into = from->part == to->part ? parts[from->part] : together;
        into.section.dimensions.push_back({.from = *one, .to = *other});
        into.letters.emplace_back(each.letter);
    }
    std::vector<Lettered> out{std::move(together)};
    for (Lettered& each : parts)
        if (!each.letters.empty() || !each.diameters.empty()) out.push_back(std::move(each));
    for (Lettered& each : out) {
        std::ranges::stable_sort(each.diameters,
                                 [](const LetteredDiameter& a, const LetteredDiameter& b) {
                                     return a.edge.r < b.edge.r;
                                 });
        measure_shown(each);
    }
    return out;
}

}  // namespace trialfit::draw
