// SPDX-License-Identifier: MIT
#include <algorithm>
#include <cmath>
#include <cstddef>
#include <limits>
#include <trialfit/draw/section/profile.hpp>
#include <trialfit/quantity/units.hpp>
#include <trialfit/trade/thread/profile.hpp>
#include <utility>

namespace trialfit::draw {

namespace {

// A ring that is this much wider than a cone's large end is a shoulder and no part of the cone.
constexpr double kShoulder = 1.02;
// A bore down to this share of the crests is the thread's own.
constexpr double kTapped = 0.98;

double at(const std::vector<double>& faces, const job::RingEnd& end) {
    return faces[end.face.at()] + end.beyond;
}

// A cone as it stands: radii at both ends.
struct Flank {
    double z0 = 0.0;
    double z1 = 0.0;
    double r0 = 0.0;
    double r1 = 0.0;
    bool unsure = false;

    [[nodiscard]] double at(double z) const { return r0 + (r1 - r0) * (z - z0) / (z1 - z0); }
    [[nodiscard]] double large() const { return std::max(r0, r1); }
    [[nodiscard]] double small() const { return std::min(r0, r1); }
};

// Of a cone that nobody has measured, the diameter of the one that it seats on, or that seats on
// it; else not a number.
double drawn_diameter(const job::Job& job, job::ConeRef of) {
    const auto dia = [&job](job::ConeRef cone) { return job::at(job, cone).dia.size.nominal; };
    double found = dia(of);
    for (const job::PartId p : job::indices(job.parts))
        for (const job::Seat& seat : job.parts[p.at()].seats) {
            if (seat.kind != job::SeatKind::cone_on_cone || !std::isnan(found)) continue;
            const job::ConeRef own{p, seat.own_cone};
            if (own == of) found = dia(seat.on_cone);
            if (seat.on_cone == of) found = dia(own);
        }
    return found;
}

Flank flank_of(const job::Job& job, job::ConeRef of, const std::vector<double>& faces, bool known) {
    const job::Cone& cone = job.parts[of.part.at()].cones[of.index.at()];
    const double z0 = faces[cone.at_face.at()];
    const double length = cone.length.size.nominal;
    const double dia = drawn_diameter(job, of);
    return {.z0 = z0,
            .z1 = z0 + length,
            .r0 = dia / 2.0,
            .r1 = std::max(0.0, (dia - cone.taper * length) / 2.0),
            .unsure = !known || cone.dia.size.is_unmeasured()};
}

// The solid between z0 and z1, where it lies there.
Solid part_of(const Solid& s, double z0, double z1) {
    const auto mix = [&s](double z, double a, double b) {
        return a + (b - a) * (z - s.z0) / (s.z1 - s.z0);
    };
    return {.z0 = z0,
            .z1 = z1,
            .inner0 = mix(z0, s.inner0, s.inner1),
            .inner1 = mix(z1, s.inner0, s.inner1),
            .outer0 = mix(z0, s.outer0, s.outer1),
            .outer1 = mix(z1, s.outer0, s.outer1),
            .unsure = s.unsure};
}

// Replaces what `chosen` picks, between z0 and z1, by what `shape` makes of it.
template <typename Chosen, typename Shape>
void reshape(std::vector<Solid>& solids, double z0, double z1, const Chosen& chosen,
             const Shape& shape) {
    std::vector<Solid> out;
    for (const Solid& s : solids) {
        const double from = std::max(s.z0, z0);
        const double to = std::min(s.z1, z1);
        if (from >= to || !chosen(s)) {
            out.push_back(s);
            continue;
        }
        if (s.z0 < from) out.push_back(part_of(s, s.z0, from));
        const Solid shaped = shape(part_of(s, from, to));
        if (shaped.outer0 > shaped.inner0 || shaped.outer1 > shaped.inner1) out.push_back(shaped);
        if (s.z1 > to) out.push_back(part_of(s, to, s.z1));
    }
    solids = std::move(out);
}

double least_inner(const std::vector<Solid>& solids, double z0, double z1, double otherwise) {
    double least = std::numeric_limits<double>::infinity();
    for (const Solid& s : solids)
        if (std::min(s.z1, z1) > std::max(s.z0, z0)) least = std::min({least, s.inner0, s.inner1});
    return std::isfinite(least) ? least : otherwise;
}

// The innermost metal along a bored cone reaches down to the cone.
void bore_cone(const Flank& cone, Profile& into) {
    const double innermost = least_inner(into.solids, cone.z0, cone.z1, -1.0);
    if (innermost < 0.0) {
        into.bare_cones.push_back({{cone.z0, cone.r0}, {cone.z1, cone.r1}});
        return;
    }
    reshape(
        into.solids, cone.z0, cone.z1,
        [&](const Solid& s) {
            return std::min(s.inner0, s.inner1) <= innermost * (1.0 + 1e-9) &&
                   s.outer0 > cone.small();
        },
        [&](Solid s) {
            s.inner0 = std::min(cone.at(s.z0), s.outer0);
            s.inner1 = std::min(cone.at(s.z1), s.outer1);
            return s;
        });
}

// A shaft's cone is solid down to the shaft's bore; a ring drawn as wide as its large end tapers.
void turn_cone(const Flank& cone, Profile& into) {
    const double inner = std::min(least_inner(into.solids, cone.z0, cone.z1, 0.0), cone.small());
    reshape(
        into.solids, cone.z0, cone.z1,
        [&](const Solid& s) {
            return s.outer0 > cone.small() && s.outer0 <= kShoulder * cone.large();
        },
        [&](Solid s) {
            s.outer0 = std::min(s.outer0, cone.at(s.z0));
            s.outer1 = std::min(s.outer1, cone.at(s.z1));
            return s;
        });
    into.solids.push_back({.z0 = cone.z0,
                           .z1 = cone.z1,
                           .inner0 = inner,
                           .inner1 = inner,
                           .outer0 = cone.r0,
                           .outer1 = cone.r1,
                           .unsure = cone.unsure});
}

void cut_thread(const job::Job& job, job::ThreadRef which, const std::vector<double>& faces,
                Profile& into) {
    const job::Thread& thread = job.parts[which.part.at()].threads[which.index.at()];
    const auto [z0, z1] = std::minmax(faces[thread.from.at()], faces[thread.to.at()]);
    if (!(z1 > z0)) return;
    const double per_mm = 1.0 / quantity::mm_per(job.units);
    const trade::BasicProfile basic = trade::basic_profile(thread.form);
    const double major = thread.form.d_mm / 2.0 * per_mm;
    const double minor = basic.minor_mm / 2.0 * per_mm;
    // Whole turns between two lines across, so that a nut that meets their end is seen to; the
    // turns of the lead-in and of the run-out grow shallow (ISO 6410-1).
    const auto [w0, w1] = whole_turns(thread, faces);
    const auto turns = [&, z0 = z0, z1 = z1, w0 = w0, w1 = w1](double root, double crest) {
        into.threads.push_back({{w0, root}, {w1, root}});
        for (const double z : {w0, w1})
            into.threads.push_back({{z, std::min(root, crest)}, {z, std::max(root, crest)}});
        if (w0 > z0) into.threads.push_back({{z0, crest}, {w0, root}});
        if (w1 < z1) into.threads.push_back({{w1, root}, {z1, crest}});
    };
    if (is_internal(job, which)) {
        reshape(
            into.solids, z0, z1,
            [&](const Solid& s) {
                return s.inner0 >= kTapped * minor && s.inner0 <= major * (1.0 + 1e-6) &&
                       s.outer0 > major;
            },
            [&](Solid s) {
                s.inner0 = s.inner1 = minor;
                return s;
            });
        turns(major, minor);
        return;
    }
    into.over_others = true;
    const bool has_metal = std::ranges::any_of(into.solids, [&, z0 = z0, z1 = z1](const Solid& s) {
        return std::min(s.z1, z1) > std::max(s.z0, z0) && s.outer0 > kTapped * minor;
    });
    if (!has_metal) into.solids.push_back(straight(z0, z1, 0.0, major));
    const double root = basic.root_mm / 2.0 * per_mm;
    turns(root, major);
}

}  // namespace

std::pair<double, double> whole_turns(const job::Thread& thread, const std::vector<double>& faces) {
    const double from = faces[thread.from.at()];
    const double to = faces[thread.to.at()];
    const auto length = [](const job::Given& of) {
        return of.size.nominal > 0.0 ? of.size.nominal : 0.0;
    };
    double low = length(thread.run_out);
    double high = length(thread.lead_in);
    if (to < from) std::swap(low, high);
    const double first = std::min(from, to) + low;
    const double last = std::max(from, to) - high;
    return first < last ? std::pair{first, last} : std::minmax({from, to});
}

bool is_bore(const job::Job& job, job::ConeRef cone) {
    for (std::size_t p = 0; p < job.parts.size(); ++p) {
        for (const job::Seat& seat : job.parts[p].seats) {
            if (seat.kind != job::SeatKind::cone_on_cone) continue;
            if (cone.part == p && seat.own_cone == cone.index) return true;
            if (seat.on_cone == cone) return false;
        }
    }
    const job::Part& part = job.parts[cone.part.at()];
    const double dia = part.cones[cone.index.at()].dia.size.nominal;
    return std::ranges::any_of(part.rings, [dia](const job::Ring& ring) {
        return ring.bore.size.nominal > dia / 2.0 && ring.outside.size.nominal > dia;
    });
}

bool is_internal(const job::Job& job, job::ThreadRef which) {
    const job::Part& part = job.parts[which.part.at()];
    const job::Thread& thread = part.threads[which.index.at()];
    if (thread.form.tolerance) return thread.form.tolerance->internal;
    const double d = thread.form.d_mm / quantity::mm_per(job.units);
    constexpr double kBored = 0.7;
    return std::ranges::any_of(part.rings, [d](const job::Ring& ring) {
        return ring.bore.size.nominal > kBored * d && ring.outside.size.nominal > d;
    });
}

Profile profile(const job::Job& job, job::PartId part, const std::vector<double>& faces,
                const std::vector<bool>& known) {
    const auto knows = [&known](job::FaceId face) { return known[face.at()]; };
    const job::Part& of = job.parts[part.at()];
    Profile out;
    for (const job::Ring& ring : of.rings) {
        const double z0 = at(faces, ring.inboard);
        const double z1 = at(faces, ring.outboard);
        if (!(z1 > z0)) continue;
        out.solids.push_back(
            straight(z0, z1, ring.bore.size.nominal / 2.0, ring.outside.size.nominal / 2.0));
        out.solids.back().unsure =
            !knows(ring.inboard.face) || !knows(ring.outboard.face) || !ring.measured();
    }
    for (std::size_t c = 0; c < of.cones.size(); ++c) {
        const Flank cone =
            flank_of(job, {part, static_cast<int>(c)}, faces, knows(of.cones[c].at_face));
        if (!(cone.z1 > cone.z0) || std::isnan(cone.r0)) continue;
        if (is_bore(job, {part, static_cast<int>(c)})) {
            bore_cone(cone, out);
        } else {
            turn_cone(cone, out);
        }
    }
    for (std::size_t t = 0; t < of.threads.size(); ++t)
        cut_thread(job, {part, static_cast<int>(t)}, faces, out);
    return out;
}

}  // namespace trialfit::draw
