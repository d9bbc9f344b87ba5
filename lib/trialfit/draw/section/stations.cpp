// SPDX-License-Identifier: MIT
#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <numeric>
#include <optional>
#include <trialfit/draw/section/stations.hpp>
#include <trialfit/stack/clearance/clamping.hpp>
#include <utility>
#include <variant>

namespace trialfit::draw {

namespace {

// More than these of the clearances that hold, or that do not, crowd a drawing.
constexpr std::size_t kTightest = 2;
constexpr std::size_t kWorst = 5;
constexpr std::size_t kMostChecks = 14;
// A gap that holds and is more than this share of the whole length is seen without a figure.
constexpr double kTight = 0.08;

struct Band {
    double inner = 0.0;
    double outer = 0.0;
};

Band band_of(const job::Ring& ring) {
    return {ring.bore.size.nominal / 2.0, ring.outside.size.nominal / 2.0};
}

// Radii of the rings that end on a face; nothing where none does.
std::vector<Band> bands(const job::Job& job, job::FaceRef face) {
    std::vector<Band> out;
    for (const job::Ring& ring : job.parts[face.part.at()].rings)
        if (ring.inboard.face == face.face || ring.outboard.face == face.face)
            out.push_back(band_of(ring));
    return out;
}

// A radius that lies on both faces, or between them where none does.
double meeting_radius(const std::vector<Band>& one, const std::vector<Band>& other) {
    const auto middle = [](const Band& band) { return (band.inner + band.outer) / 2.0; };
    if (one.empty() && other.empty()) return 0.0;
    if (one.empty()) return middle(other.front());
    if (other.empty()) return middle(one.front());
    std::optional<Band> widest;
    Band nearest;
    double apart = -1.0;
    for (const Band& a : one) {
        for (const Band& b : other) {
            const Band both{std::max(a.inner, b.inner), std::min(a.outer, b.outer)};
            const double width = both.outer - both.inner;
            if (width > 0.0 && (!widest || width > widest->outer - widest->inner)) widest = both;
            if (apart >= 0.0 && -width >= apart) continue;
            apart = -width;
            nearest = {both.outer, both.inner};
        }
    }
    return middle(widest.value_or(nearest));
}

double position(const Faces& faces, job::FaceRef face) {
    return faces[face.part.at()][face.face.at()];
}

// The stretch that two lengths have in common; of two apart, the stretch between them.
std::pair<double, double> in_common(std::pair<double, double> a, std::pair<double, double> b) {
    return {std::max(a.first, b.first), std::min(a.second, b.second)};
}

std::pair<double, double> whole_thread(const job::Job& job, const Faces& faces,
                                       job::ThreadRef which) {
    const job::Thread& thread = job::at(job, which);
    const double from = position(faces, {which.part, thread.from});
    const double to = position(faces, {which.part, thread.to});
    const double run_out = thread.run_out.size.nominal;
    const double lead_in = thread.lead_in.size.nominal;
    return to > from ? std::pair{from + run_out, to - lead_in}
                     : std::pair{to + lead_in, from - run_out};
}

std::pair<double, double> span(const Faces& faces, job::PartId part, const job::Ring& ring) {
    return {position(faces, {part, ring.inboard.face}) + ring.inboard.beyond,
            position(faces, {part, ring.outboard.face}) + ring.outboard.beyond};
}

struct Ends {
    Point from;
    Point to;
};

Ends ends_of(const job::Job& job, const Faces& faces, const job::GapOf& gap) {
    const double r = meeting_radius(bands(job, gap.inboard), bands(job, gap.outboard));
    return {{position(faces, gap.inboard), r}, {position(faces, gap.outboard), r}};
}

Ends ends_of(const job::Job& job, const Faces& faces, const job::EngagementOf& engagement) {
    const auto both = in_common(whole_thread(job, faces, engagement.one),
                                whole_thread(job, faces, engagement.other));
    const job::Thread& thread =
        job.parts[engagement.one.part.at()].threads[engagement.one.index.at()];
    const double r = thread.form.d_mm / 2.0 / quantity::mm_per(job.units);
    return {{both.first, r}, {both.second, r}};
}

Ends ends_of(const job::Job& job, const Faces& faces, const job::ClampOf& clamp) {
    const job::Thread& thread =
        job.parts[clamp.screwed.part.at()].threads[clamp.screwed.index.at()];
    const double r = thread.form.d_mm / 2.0 / quantity::mm_per(job.units);
    const auto own = whole_thread(job, faces, clamp.screwed);
    const auto onto = whole_thread(job, faces, clamp.onto);
    if (clamp.nut) return {{onto.first, r}, {own.first, r}};
    return {{onto.second, r}, {own.second, r}};
}

Ends ends_of(const job::Job& job, const Faces& faces, const job::OverlapOf& overlap) {
    const job::Ring& of = job::at(job, overlap.of);
    const job::Ring& by = job::at(job, overlap.by);
    const auto both = in_common(span(faces, overlap.of.part, of), span(faces, overlap.by.part, by));
    const double r = meeting_radius({band_of(of)}, {band_of(by)});
    return {{both.first, r}, {both.second, r}};
}

double length_of(const Faces& faces) {
    double low = 0.0;
    double high = 0.0;
    for (const std::vector<double>& part : faces) {
        for (const double z : part) {
            low = std::min(low, z);
            high = std::max(high, z);
        }
    }
    return high - low;
}

bool same_gap(const job::Check& check, const stack::Clearance& pair) {
    const auto* gap = std::get_if<job::GapOf>(&check.of);
    return gap != nullptr && pair.inboard_end.beyond == 0.0 && pair.outboard_end.beyond == 0.0 &&
           gap->inboard == job::FaceRef{pair.inboard_of.part, pair.inboard_end.face} &&
           gap->outboard == job::FaceRef{pair.outboard_of.part, pair.outboard_end.face};
}

SectionDimension of_clearance(const job::Job& job, const Faces& faces, const stack::Clearance& pair,
                              std::size_t index) {
    const double r = meeting_radius({band_of(job::at(job, pair.inboard_of))},
                                    {band_of(job::at(job, pair.outboard_of))});
    const double from =
        position(faces, {pair.inboard_of.part, pair.inboard_end.face}) + pair.inboard_end.beyond;
    const double to =
        position(faces, {pair.outboard_of.part, pair.outboard_end.face}) + pair.outboard_end.beyond;
    return {.kind = DimensionKind::clearance,
            .index = index,
            .from = {from, r},
            .to = {to, r},
            .value = pair.gap.nominal,
            .verdict = pair.verdict};
}

// Whether other parts lie in most of the way between the two ends: then that is no gap to see.
bool filled(const job::Job& job, const Faces& faces, const stack::Clearance& pair,
            const SectionDimension& gap) {
    double metal = 0.0;
    for (std::size_t p = 0; p < job.parts.size(); ++p) {
        const job::PartId part = static_cast<int>(p);
        if (part == pair.inboard_of.part || part == pair.outboard_of.part) continue;
        for (const job::Ring& ring : job.parts[p].rings) {
            const Band band = band_of(ring);
            if (band.inner >= gap.from.r || band.outer <= gap.from.r) continue;
            const auto both = in_common(span(faces, part, ring), {gap.from.z, gap.to.z});
            metal += std::max(0.0, both.second - both.first);
        }
    }
    return metal > 0.5 * (gap.to.z - gap.from.z);
}

// Across the gap between two rings, one within the other, on the length that they share; `share`
// of it, so that one gap's arrows stand beside another's.
std::optional<SectionDimension> across(const job::Job& job, const Faces& faces, job::RingRef one,
                                       job::RingRef other, double share) {
    const job::Ring& first = job::at(job, one);
    const job::Ring& second = job::at(job, other);
    const auto both = in_common(span(faces, one.part, first), span(faces, other.part, second));
    if (both.second <= both.first) return std::nullopt;
    const bool outside = first.bore.size.nominal > second.bore.size.nominal;
    const double z = both.first + share * (both.second - both.first);
    return SectionDimension{.from = {z, band_of(outside ? second : first).outer},
                            .to = {z, band_of(outside ? first : second).inner},
                            .across = true,
                            .parts = {one.part.at(), other.part.at()}};
}

// Air gaps that are asked for, radial gaps that do not hold, and the tightest that do.
std::vector<SectionDimension> radial(const job::Job& job, const Faces& faces,
                                     const stack::CheckAnswer& answer) {
    constexpr std::array kShares{0.5, 0.75, 0.25};
    std::vector<SectionDimension> out;
    const auto add = [&](DimensionKind kind, std::size_t index, job::RingRef one,
                         job::RingRef other, double value, stack::Verdict verdict) {
        auto made = across(job, faces, one, other, kShares.at(out.size() % kShares.size()));
        if (!made) return;
        made->kind = kind;
        made->index = index;
        made->value = value;
        made->verdict = verdict;
        out.push_back(*made);
    };
    for (std::size_t c = 0; c < job.air_gaps.size(); ++c) {
        const job::AirGap& gap = job.air_gaps[c];
        const std::size_t index = job.checks.size() + c;
        const stack::CheckResult& found = answer.checks[index];
        add(DimensionKind::check, index, gap.one, gap.other, found.value.nominal, found.verdict);
    }
    std::size_t tight = 0;
    for (std::size_t i = 0; i < answer.radial.size(); ++i) {
        const stack::RadialGap& pair = answer.radial[i];
        const job::RingRef inner = pair.inner_ring;
        const job::RingRef outer = pair.outer_ring;
        const bool asked = std::ranges::any_of(job.air_gaps, [&](const job::AirGap& gap) {
            return (gap.one == inner && gap.other == outer) ||
                   (gap.one == outer && gap.other == inner);
        });
        const bool holds = pair.verdict == stack::Verdict::holds;
        const bool wide = holds && pair.gap.nominal > kTight * length_of(faces);
        if (asked || wide || (holds ? tight >= kTightest : out.size() >= kWorst)) continue;
        if (holds) ++tight;
        add(DimensionKind::radial, i, inner, outer, pair.gap.nominal, pair.verdict);
    }
    return out;
}

// A cone's radius at some place along the axis.
double radius_at(const job::Cone& cone, double zero, double z) {
    return (cone.dia.size.nominal - cone.taper * (z - zero)) / 2.0;
}

// A contact of two cones of unlike taper.
struct UnlikeCones {
    std::size_t hub = 0;
    std::size_t shaft = 0;
    double open = 0.0;     // where it is open, along the axis
    double bears = 0.0;    // where it touches
    double shaft_r = 0.0;  // radii at the open end, and of the shaft where it touches
    double hub_r = 0.0;
    double bearing_r = 0.0;
};

std::vector<UnlikeCones> unlike_cones(const job::Job& job, const Faces& faces) {
    constexpr double kAlike = 1e-9;
    std::vector<UnlikeCones> out;
    for (std::size_t p = 0; p < job.parts.size(); ++p) {
        for (const job::Seat& seat : job.parts[p].seats) {
            if (seat.kind != job::SeatKind::cone_on_cone) continue;
            const int hub_part = static_cast<int>(p);
            const job::Cone& hub = job.parts[p].cones[seat.own_cone.at()];
            const job::Cone& shaft = job::at(job, seat.on_cone);
            const double hub_zero = position(faces, {hub_part, hub.at_face});
            const double shaft_zero = position(faces, {seat.on_cone.part, shaft.at_face});
            const auto both = in_common({hub_zero, hub_zero + hub.length.size.nominal},
                                        {shaft_zero, shaft_zero + shaft.length.size.nominal});
            if (std::abs(hub.taper - shaft.taper) < kAlike || both.second <= both.first) continue;
            const auto room = [&](double z) {
                return radius_at(hub, hub_zero, z) - radius_at(shaft, shaft_zero, z);
            };
            const bool inner = room(both.first) > room(both.second);
            const double open = inner ? both.first : both.second;
            const double bears = inner ? both.second : both.first;
            if (!(room(open) > kAlike)) continue;
            out.push_back({.hub = p,
                           .shaft = seat.on_cone.part.at(),
                           .open = open,
                           .bears = bears,
                           .shaft_r = radius_at(shaft, shaft_zero, open),
                           .hub_r = radius_at(hub, hub_zero, open),
                           .bearing_r = radius_at(shaft, shaft_zero, bears)});
        }
    }
    return out;
}

// Where hubs on another taper than their own stand open: at the end of the contact with more room.
std::vector<SectionDimension> open_cones(const job::Job& job, const Faces& faces) {
    std::vector<SectionDimension> out;
    for (const UnlikeCones& each : unlike_cones(job, faces))
        out.push_back({.kind = DimensionKind::open_cone,
                       .index = each.hub,
                       .from = {each.open, each.shaft_r},
                       .to = {each.open, each.hub_r},
                       .across = true,
                       .value = each.hub_r - each.shaft_r,
                       .verdict = stack::Verdict::fails,
                       .parts = {each.hub, each.shaft}});
    return out;
}

// Shown at the outermost face that moved with the part, as far out as its metal reaches.
std::optional<SectionDimension> proud(const job::Job& job, const Faces& faces,
                                      const std::vector<double>& off, const std::string& name) {
    for (std::size_t p = 0; p < job.parts.size(); ++p) {
        if (job.parts[p].name != name || off[p] <= 0.0) continue;
        Point at;
        for (const job::Ring& ring : job.parts[p].rings) {
            const double z = span(faces, static_cast<int>(p), ring).second;
            const double r = ring.outside.size.nominal / 2.0;
            if (r > at.r || (r == at.r && z > at.z)) at = {z, r};
        }
        return SectionDimension{.kind = DimensionKind::stands_proud,
                                .index = p,
                                .from = at,
                                .to = {at.z + off[p], at.r},
                                .value = off[p],
                                .verdict = stack::Verdict::fails};
    }
    return std::nullopt;
}

SectionDimension of_check(const job::Job& job, const Faces& faces, const stack::CheckAnswer& answer,
                          const job::Check& check, std::size_t index) {
    const Ends ends = std::visit([&](const auto& of) { return ends_of(job, faces, of); }, check.of);
    return {.kind = DimensionKind::check,
            .index = index,
            .from = ends.from,
            .to = ends.to,
            .value = answer.checks[index].value.nominal,
            .verdict = answer.checks[index].verdict};
}

// What nuts have left when they are home, where that does not hold; after the job's own checks.
void add_clamps(const job::Job& job, const Faces& faces, const stack::CheckAnswer& answer,
                std::vector<SectionDimension>& out) {
    std::size_t c = job.checks.size() + job.air_gaps.size();
    for (const job::Check& each : stack::clamp_checks(job)) {
        const std::size_t here = c++;
        if (here >= answer.checks.size() || answer.checks[here].verdict == stack::Verdict::holds)
            continue;
        out.push_back(of_check(job, faces, answer, each, here));
    }
}

void add_clearances(const job::Job& job, const Faces& faces, const stack::CheckAnswer& answer,
                    std::vector<SectionDimension>& out) {
    std::size_t worst = 0;
    std::size_t tight = 0;
    for (std::size_t i = 0; i < answer.clearances.size(); ++i) {
        const stack::Clearance& pair = answer.clearances[i];
        const bool asked =
            std::ranges::any_of(job.checks, [&](const job::Check& c) { return same_gap(c, pair); });
        const bool holds = pair.verdict == stack::Verdict::holds;
        if (holds && pair.gap.nominal > kTight * length_of(faces)) continue;
        if (asked || (holds ? tight >= kTightest : worst >= kWorst)) continue;
        const SectionDimension made = of_clearance(job, faces, pair, i);
        if (holds && filled(job, faces, pair, made)) continue;
        ++(holds ? tight : worst);
        out.push_back(made);
    }
}

}  // namespace

std::vector<BearingEnd> bearing_ends(const job::Job& job, const Faces& faces) {
    std::vector<BearingEnd> out;
    for (const UnlikeCones& each : unlike_cones(job, faces))
        out.push_back({{each.bears, each.bearing_r}, each.hub, each.shaft});
    return out;
}

double dimension_radius(const job::Job& job, job::FaceRef one, job::FaceRef other) {
    return meeting_radius(bands(job, one), bands(job, other));
}

std::vector<std::size_t> shown_checks(const job::Job& job, const stack::CheckAnswer& answer) {
    std::vector<std::size_t> order(job.checks.size());
    std::iota(order.begin(), order.end(), std::size_t{0});
    if (order.size() <= kMostChecks) return order;
    std::ranges::stable_sort(order, [&answer](std::size_t a, std::size_t b) {
        return std::pair{answer.checks[b].verdict, answer.checks[a].judged_margin} <
               std::pair{answer.checks[a].verdict, answer.checks[b].judged_margin};
    });
    order.resize(kMostChecks);
    std::ranges::sort(order);
    return order;
}

std::vector<SectionDimension> dimensions(const job::Job& job, const Faces& faces,
                                         const std::vector<double>& off,
                                         const stack::CheckAnswer& answer) {
    std::vector<SectionDimension> out;
    for (const std::size_t c : shown_checks(job, answer))
        out.push_back(of_check(job, faces, answer, job.checks[c], c));
    add_clamps(job, faces, answer, out);
    add_clearances(job, faces, answer, out);
    for (const SectionDimension& each : radial(job, faces, answer))
        out.push_back(each);
    for (const SectionDimension& each : open_cones(job, faces))
        out.push_back(each);
    if (answer.first_contact)
        if (const auto stands = proud(job, faces, off, answer.first_contact->part))
            out.push_back(*stands);
    // What is not judged has no figure to show.
    out.erase(
        std::remove_if(out.begin(), out.end(),
                       [](const SectionDimension& each) { return !std::isfinite(each.value); }),
        out.end());
    return out;
}

}  // namespace trialfit::draw
