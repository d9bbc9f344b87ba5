// SPDX-License-Identifier: MIT
#include <algorithm>
#include <cmath>
#include <cstddef>
#include <trialfit/stack/bounds.hpp>
#include <trialfit/stack/metal.hpp>
#include <trialfit/stack/turning_body.hpp>
#include <vector>

namespace trialfit::stack {

namespace {

// A ring's section, mm: along the axis from the part's first face, and across it as diameters.
struct Section {
    double from = 0.0;
    double to = 0.0;
    double bore = 0.0;
    double od = 0.0;

    [[nodiscard]] bool known() const {
        return std::isfinite(from) && std::isfinite(to) && std::isfinite(bore) && std::isfinite(od);
    }
};

// Of a size or a position: its least, nominal or greatest.
double at_extent(const quantity::Size& size, Extent extent) {
    if (extent == Extent::nominal) return size.nominal;
    return extent == Extent::least ? size.lower : size.upper;
}
double at_extent(const Bounds& place, Extent extent) {
    if (extent == Extent::nominal) return place.nominal;
    return extent == Extent::least ? place.worst.lo : place.worst.hi;
}

Extent opposite(Extent extent) {
    if (extent == Extent::nominal) return extent;
    return extent == Extent::least ? Extent::greatest : Extent::least;
}

std::vector<Section> sections(const Model& model, job::PartId part, Extent extent) {
    const double mm = quantity::mm_per(model.job().units);
    std::vector<Section> found;
    for (const job::Ring& ring : model.job().parts.at(part.at()).rings) {
        const auto at = [&](const job::RingEnd& end, Extent how) {
            const Form along = model.gap({.face = {part, 0}},
                                         Station{.face = {part, end.face}, .beyond = end.beyond});
            return at_extent(bounds(model, along, 1.0), how) * mm;
        };
        found.push_back({.from = at(ring.inboard, opposite(extent)),
                         .to = at(ring.outboard, extent),
                         .bore = at_extent(ring.bore.size, opposite(extent)) * mm,
                         .od = at_extent(ring.outside.size, extent) * mm});
    }
    return found;
}

// The same metal cut into slices in which no two sections overlap.
std::vector<Section> laid_apart(const std::vector<Section>& rings) {
    std::vector<double> cuts;
    for (const Section& each : rings) {
        cuts.push_back(each.from);
        cuts.push_back(each.to);
    }
    std::ranges::sort(cuts);
    std::vector<Section> apart;
    for (std::size_t i = 1; i < cuts.size(); ++i) {
        if (!(cuts[i] > cuts[i - 1])) continue;
        std::vector<Section> slice;
        for (const Section& each : rings)
            if (each.from <= cuts[i - 1] && each.to >= cuts[i])
                slice.push_back({cuts[i - 1], cuts[i], each.bore, each.od});
        std::ranges::sort(slice, {}, &Section::bore);
        double reached = 0.0;
        for (Section each : slice) {
            each.bore = std::max(each.bore, reached);
            if (each.od <= each.bore) continue;
            reached = each.od;
            apart.push_back(each);
        }
    }
    return apart;
}

}  // namespace

std::variant<trade::RingInertia, NotCounted> body_of(const Model& model, job::PartId part,
                                                     Extent extent) {
    using Lacks = NotCounted::Lacks;
    const job::Part& of = model.job().parts.at(part.at());
    const auto lacking = [&of](Lacks what) { return NotCounted{.part = of.name, .lacks = what}; };
    if (of.rings.empty()) return lacking(Lacks::rings);
    const Metal made_of = metal(model.job(), part);
    if (!made_of.density_kg_m3) return lacking(Lacks::density);
    const std::vector<Section> rings = sections(model, part, extent);
    const bool known = std::ranges::all_of(rings, [](const Section& each) { return each.known(); });
    if (!known) return lacking(Lacks::lengths);
    trade::RingInertia whole;
    for (const Section& each : laid_apart(rings)) {
        const auto body = trade::ring_inertia(each.bore, each.od, each.to - each.from,
                                              made_of.density_kg_m3->value);
        if (body) whole = whole + *body;
    }
    return whole;
}

}  // namespace trialfit::stack
