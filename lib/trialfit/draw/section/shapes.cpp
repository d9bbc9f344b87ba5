// SPDX-License-Identifier: MIT
#include <algorithm>
#include <cmath>
#include <cstddef>
#include <trialfit/draw/section/shapes.hpp>
#include <utility>

namespace trialfit::draw {

namespace {

// Positions closer than this share of the whole are one: faces that touch come from sums.
constexpr double kSame = 1e-9;

double between(double z, double z0, double z1, double at0, double at1) {
    return z1 == z0 ? at0 : at0 + (at1 - at0) * (z - z0) / (z1 - z0);
}

double inner_at(const Solid& s, double z) {
    return between(z, s.z0, s.z1, s.inner0, s.inner1);
}

double outer_at(const Solid& s, double z) {
    return between(z, s.z0, s.z1, s.outer0, s.outer1);
}

double extent(const std::vector<Solid>& solids) {
    double most = 0.0;
    for (const Solid& s : solids)
        most = std::max({most, std::abs(s.z0), std::abs(s.z1), s.outer0, s.outer1});
    return most;
}

// Where two flanks cross strictly between z0 and z1.
void add_crossing(double z0, double z1, double a0, double a1, double b0, double b1,
                  std::vector<double>& into) {
    const double d0 = a0 - b0;
    const double d1 = a1 - b1;
    if ((d0 < 0.0) == (d1 < 0.0) || d0 == d1) return;
    into.push_back(between(0.0, d0, d1, z0, z1));
}

void add_crossings(const Solid& a, const Solid& b, std::vector<double>& into) {
    const double z0 = std::max(a.z0, b.z0);
    const double z1 = std::min(a.z1, b.z1);
    if (z0 >= z1) return;
    for (const auto flank : {inner_at, outer_at}) {
        for (const auto other : {inner_at, outer_at})
            add_crossing(z0, z1, flank(a, z0), flank(a, z1), other(b, z0), other(b, z1), into);
    }
}

std::vector<double> stations(const std::vector<Solid>& solids) {
    std::vector<double> all;
    for (std::size_t i = 0; i < solids.size(); ++i) {
        all.push_back(solids[i].z0);
        all.push_back(solids[i].z1);
        for (std::size_t j = i + 1; j < solids.size(); ++j)
            add_crossings(solids[i], solids[j], all);
    }
    std::ranges::sort(all);
    const double same = kSame * extent(solids);
    std::vector<double> out;
    for (const double z : all)
        if (out.empty() || z - out.back() > same) out.push_back(z);
    return out;
}

// The metal between two neighbouring stations, pieces rising in radius and apart.
std::vector<Solid> slab(const std::vector<Solid>& solids, double z0, double z1, double same) {
    const double middle = (z0 + z1) / 2.0;
    std::vector<Solid> found;
    for (const Solid& s : solids) {
        if (s.z0 > middle || s.z1 < middle) continue;
        found.push_back({.z0 = z0,
                         .z1 = z1,
                         .inner0 = inner_at(s, z0),
                         .inner1 = inner_at(s, z1),
                         .outer0 = outer_at(s, z0),
                         .outer1 = outer_at(s, z1)});
    }
    std::ranges::sort(found, [middle](const Solid& a, const Solid& b) {
        return inner_at(a, middle) < inner_at(b, middle);
    });
    std::vector<Solid> out;
    for (const Solid& s : found) {
        if (out.empty() || inner_at(s, middle) > outer_at(out.back(), middle) + same) {
            out.push_back(s);
        } else if (outer_at(s, middle) > outer_at(out.back(), middle)) {
            out.back().outer0 = s.outer0;
            out.back().outer1 = s.outer1;
        }
    }
    return out;
}

struct Span {
    double lo = 0.0;
    double hi = 0.0;
};

// What is in `from` and not in `without`, both rising.
std::vector<Span> less(const std::vector<Span>& from, const std::vector<Span>& without,
                       double same) {
    std::vector<Span> out;
    for (Span rest : from) {
        for (const Span& gone : without) {
            if (gone.hi <= rest.lo || gone.lo >= rest.hi) continue;
            if (gone.lo - rest.lo > same) out.push_back({rest.lo, gone.lo});
            rest.lo = std::max(rest.lo, gone.hi);
        }
        if (rest.hi - rest.lo > same) out.push_back(rest);
    }
    return out;
}

std::vector<Span> at_start(const std::vector<Solid>& pieces) {
    std::vector<Span> out;
    out.reserve(pieces.size());
    for (const Solid& s : pieces)
        out.push_back({s.inner0, s.outer0});
    return out;
}

std::vector<Span> at_end(const std::vector<Solid>& pieces) {
    std::vector<Span> out;
    out.reserve(pieces.size());
    for (const Solid& s : pieces)
        out.push_back({s.inner1, s.outer1});
    return out;
}

// Directed edges with the metal on their left.
std::vector<Line> edges_of(const std::vector<std::vector<Solid>>& slabs,
                           const std::vector<double>& at, double same) {
    std::vector<Line> edges;
    for (std::size_t i = 0; i < at.size(); ++i) {
        const std::vector<Span> left = i == 0 ? std::vector<Span>{} : at_end(slabs[i - 1]);
        const std::vector<Span> right =
            i + 1 == at.size() ? std::vector<Span>{} : at_start(slabs[i]);
        for (const Span& s : less(left, right, same))
            edges.push_back({{at[i], s.lo}, {at[i], s.hi}});
        for (const Span& s : less(right, left, same))
            edges.push_back({{at[i], s.hi}, {at[i], s.lo}});
        if (i + 1 == at.size()) break;
        for (const Solid& s : slabs[i]) {
            edges.push_back({{s.z0, s.inner0}, {s.z1, s.inner1}});
            edges.push_back({{s.z1, s.outer1}, {s.z0, s.outer0}});
        }
    }
    return edges;
}

bool near(const Point& a, const Point& b, double same) {
    return std::abs(a.z - b.z) <= same && std::abs(a.r - b.r) <= same;
}

bool in_line(const Point& a, const Point& b, const Point& c, double same) {
    const double cross = (b.z - a.z) * (c.r - b.r) - (b.r - a.r) * (c.z - b.z);
    const double length = std::hypot(c.z - a.z, c.r - a.r);
    return std::abs(cross) <= same * std::max(length, same);
}

Loop without_flat_corners(const Loop& loop, double same) {
    Loop out;
    for (std::size_t i = 0; i < loop.size(); ++i) {
        const Point& before = out.empty() ? loop[(i + loop.size() - 1) % loop.size()] : out.back();
        const Point& after = loop[(i + 1) % loop.size()];
        if (near(before, loop[i], same) || in_line(before, loop[i], after, same)) continue;
        out.push_back(loop[i]);
    }
    return out;
}

std::vector<Loop> chained(std::vector<Line> edges, double same) {
    std::vector<Loop> loops;
    while (!edges.empty()) {
        Loop loop{edges.back().from};
        Point end = edges.back().to;
        edges.pop_back();
        while (!near(end, loop.front(), same)) {
            const auto next = std::ranges::find_if(
                edges, [&](const Line& each) { return near(each.from, end, same); });
            if (next == edges.end()) break;
            loop.push_back(next->from);
            end = next->to;
            edges.erase(next);
        }
        Loop plain = without_flat_corners(loop, same);
        if (plain.size() >= 3) loops.push_back(std::move(plain));
    }
    return loops;
}

// Edges of the solids that have metal on both sides.
std::vector<Line> seams_of(const std::vector<Solid>& solids,
                           const std::vector<std::vector<Solid>>& slabs,
                           const std::vector<double>& at, double same) {
    std::vector<Line> seams;
    for (std::size_t i = 0; i + 1 < at.size(); ++i) {
        const double middle = (at[i] + at[i + 1]) / 2.0;
        for (const Solid& s : solids) {
            if (s.z0 > middle || s.z1 < middle) continue;
            for (const auto flank : {inner_at, outer_at}) {
                const double r = flank(s, middle);
                const bool inside = std::ranges::any_of(slabs[i], [&](const Solid& piece) {
                    return inner_at(piece, middle) < r - same && outer_at(piece, middle) > r + same;
                });
                if (inside)
                    seams.push_back({{at[i], flank(s, at[i])}, {at[i + 1], flank(s, at[i + 1])}});
            }
        }
    }
    for (std::size_t i = 1; i + 1 < at.size(); ++i) {
        const std::vector<Span> left = at_end(slabs[i - 1]);
        const std::vector<Span> right = at_start(slabs[i]);
        const std::vector<Span> both = less(left, less(left, right, 0.0), same);
        std::vector<Span> ends;
        for (const Solid& s : solids) {
            if (std::abs(s.z0 - at[i]) <= same) ends.push_back({s.inner0, s.outer0});
            if (std::abs(s.z1 - at[i]) <= same) ends.push_back({s.inner1, s.outer1});
        }
        for (const Span& end : ends)
            for (const Span& s : less({end}, less({end}, both, 0.0), same))
                seams.push_back({{at[i], s.lo}, {at[i], s.hi}});
    }
    return seams;
}

}  // namespace

Solid straight(double z0, double z1, double inner, double outer) {
    return {.z0 = z0, .z1 = z1, .inner0 = inner, .inner1 = inner, .outer0 = outer, .outer1 = outer};
}

Union united(const std::vector<Solid>& solids) {
    const double same = kSame * extent(solids);
    const std::vector<double> at = stations(solids);
    std::vector<std::vector<Solid>> slabs;
    Union out;
    for (std::size_t i = 0; i + 1 < at.size(); ++i) {
        slabs.push_back(slab(solids, at[i], at[i + 1], same));
        out.pieces.insert(out.pieces.end(), slabs.back().begin(), slabs.back().end());
    }
    if (slabs.empty()) return out;
    out.outline = chained(edges_of(slabs, at, same), same);
    out.seams = seams_of(solids, slabs, at, same);
    return out;
}

std::vector<Solid> common(const Solid& one, const Solid& other) {
    std::vector<double> at{std::max(one.z0, other.z0), std::min(one.z1, other.z1)};
    if (at.front() >= at.back()) return {};
    add_crossings(one, other, at);
    std::ranges::sort(at);
    std::vector<Solid> out;
    for (std::size_t i = 0; i + 1 < at.size(); ++i) {
        const double z0 = at[i];
        const double z1 = at[i + 1];
        const Solid piece{.z0 = z0,
                          .z1 = z1,
                          .inner0 = std::max(inner_at(one, z0), inner_at(other, z0)),
                          .inner1 = std::max(inner_at(one, z1), inner_at(other, z1)),
                          .outer0 = std::min(outer_at(one, z0), outer_at(other, z0)),
                          .outer1 = std::min(outer_at(one, z1), outer_at(other, z1))};
        const double middle = (z0 + z1) / 2.0;
        if (z1 > z0 && outer_at(piece, middle) > inner_at(piece, middle)) out.push_back(piece);
    }
    return out;
}

double length_within(const Line& line, const Solid& s, double pad) {
    const double dz = line.to.z - line.from.z;
    const double dr = line.to.r - line.from.r;
    double first = 0.0;
    double last = 1.0;
    // Keeps the stretch in which `at_from`, and what it grows by towards `to`, is not below 0.
    const auto keep = [&](double at_from, double grows) {
        if (grows == 0.0) {
            if (at_from < 0.0) last = -1.0;
        } else if (grows > 0.0) {
            first = std::max(first, -at_from / grows);
        } else {
            last = std::min(last, -at_from / grows);
        }
    };
    keep(line.from.z - s.z0 + pad, dz);
    keep(s.z1 + pad - line.from.z, -dz);
    const double inner_slope = (s.inner1 - s.inner0) / (s.z1 - s.z0);
    const double outer_slope = (s.outer1 - s.outer0) / (s.z1 - s.z0);
    keep(line.from.r - s.inner0 - inner_slope * (line.from.z - s.z0) + pad, dr - inner_slope * dz);
    keep(s.outer0 + outer_slope * (line.from.z - s.z0) - line.from.r + pad, outer_slope * dz - dr);
    return std::max(0.0, last - first) * std::hypot(dz, dr);
}

Loop loop_of(const Solid& s) {
    return {{s.z0, s.inner0}, {s.z1, s.inner1}, {s.z1, s.outer1}, {s.z0, s.outer0}};
}

Loop moved(const Loop& loop, double by) {
    Loop out = loop;
    for (Point& each : out)
        each.z += by;
    return out;
}

}  // namespace trialfit::draw
