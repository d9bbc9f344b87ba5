// SPDX-License-Identifier: MIT
#include <algorithm>
#include <cmath>
#include <cstddef>
#include <trialfit/draw/page/view.hpp>

namespace trialfit::draw {

namespace {

constexpr double kGap = 2.0;  // between a text and its leader

struct Candidate {
    Point at;
    bool right = true;
    double cost = 0.0;
};

bool spans(const Solid& s, double r) {
    return r > (s.inner0 + s.inner1) / 2.0 && r < (s.outer0 + s.outer1) / 2.0;
}

// How many other parts a level leader from `at` to the edge runs through.
int in_the_way(const Section& section, const PartShape* own, const Point& at, bool right) {
    int count = 0;
    for (const PartShape& part : section.parts) {
        if (&part == own) continue;
        count += static_cast<int>(std::any_of(
            part.pieces.begin(), part.pieces.end(),
            [&](const Solid& s) { return spans(s, at.r) && (right ? s.z1 > at.z : s.z0 < at.z); }));
    }
    return count;
}

// Prefers what is seen from the side, then thick metal, then the nearer side.
Candidate best_of(const Section& section, const PartShape* own, const std::vector<Point>& points,
                  const std::vector<double>& thick) {
    Candidate best{.cost = INFINITY};
    const double width = section.z_max - section.z_min;
    for (std::size_t i = 0; i < points.size(); ++i) {
        for (const bool right : {true, false}) {
            const double way = right ? section.z_max - points[i].z : points[i].z - section.z_min;
            const double cost = 4.0 * in_the_way(section, own, points[i], right) +
                                5.0 * way / width - thick[i] / section.r_max;
            if (cost < best.cost) best = {points[i], right, cost};
        }
    }
    return best;
}

void add_points(const Solid& s, std::vector<Point>& points, std::vector<double>& thick) {
    const double inner = (s.inner0 + s.inner1) / 2.0;
    const double outer = (s.outer0 + s.outer1) / 2.0;
    for (const double share : {0.25, 0.5, 0.8, 0.93}) {
        points.push_back({(s.z0 + s.z1) / 2.0, inner + share * (outer - inner)});
        thick.push_back(std::min(outer - inner, s.z1 - s.z0));
    }
}

SideLabel label_of(const Words& words, const Candidate& at) {
    return {.words = words,
            .anchor = at.at,
            .right = at.right,
            .width = std::max(
                text_width(words.strong, kNameSize, true) + text_width(words.rest, kNameSize),
                text_width(words.below, kFigureSize))};
}

}  // namespace

std::vector<SideLabel> side_labels(const Section& section, const SectionWords& words) {
    std::vector<SideLabel> out;
    for (std::size_t p = 0; p < section.parts.size(); ++p) {
        const PartShape& part = section.parts[p];
        std::vector<Point> points;
        std::vector<double> thick;
        for (const Solid& s : part.pieces)
            add_points(s, points, thick);
        for (const Line& line : part.bare_cones) {
            points.push_back({(line.from.z + line.to.z) / 2.0, (line.from.r + line.to.r) / 2.0});
            thick.push_back(0.0);
        }
        if (points.empty()) continue;
        out.push_back(label_of(words.parts[p], best_of(section, &part, points, thick)));
    }
    const auto add_zone = [&](const std::vector<Loop>& zone, const Words& label) {
        if (zone.empty()) return;
        Point middle;
        for (const Point& p : zone.front()) {
            middle.z += p.z / static_cast<double>(zone.front().size());
            middle.r += p.r / static_cast<double>(zone.front().size());
        }
        out.push_back(label_of(label, best_of(section, nullptr, {middle}, {0.0})));
    };
    for (std::size_t f = 0; f < section.fouls.size(); ++f)
        add_zone(section.fouls[f].zone, words.fouls[f]);
    for (std::size_t r = 0; r < section.removals.size(); ++r)
        add_zone(section.removals[r].zone, words.removals[r]);
    for (std::size_t d = 0; d < section.dimensions.size(); ++d) {
        const SectionDimension& each = section.dimensions[d];
        if (!each.across) continue;
        const Point outer{each.to.z, std::max(each.from.r, each.to.r)};
        out.push_back(label_of(words.dimensions[d], best_of(section, nullptr, {outer}, {0.0})));
        out.back().at_tail = true;
    }
    return out;
}

double height_of(const SideLabel& label) {
    return label.words.below.empty() ? kRowHeight : 2.0 * kRowHeight - 0.6;
}

void spread(std::vector<SideLabel>& labels, const Placement& place, double top, double bottom) {
    for (const bool right : {false, true}) {
        std::vector<SideLabel*> side;
        for (SideLabel& label : labels)
            if (label.right == right) side.push_back(&label);
        std::stable_sort(side.begin(), side.end(), [](const SideLabel* a, const SideLabel* b) {
            return a->anchor.r > b->anchor.r;
        });
        double free = top;
        for (SideLabel* label : side) {
            label->y = std::max(free, place.at(label->anchor).y + kNameSize / 3.0);
            free = label->y + height_of(*label);
        }
        double most = bottom + kRowHeight;
        std::for_each(side.rbegin(), side.rend(), [&most](auto* label) {
            label->y = std::min(label->y, most - height_of(*label));
            most = label->y;
        });
    }
}

void draw_labels(const std::vector<SideLabel>& labels, const Placement& place, double left,
                 double right, Drawing& into) {
    for (const SideLabel& label : labels) {
        const double x = label.right ? right : left;
        const double edge = label.right ? x - kGap / 2.0 : x + kGap / 2.0;
        into.texts.push_back(text_at({x, label.y}, kNameSize,
                                     label.right ? Anchor::start : Anchor::end, label.words.strong,
                                     label.words.rest));
        if (!label.words.below.empty())
            into.texts.push_back(text_at({x, label.y + kRowHeight - 0.6}, kFigureSize,
                                         label.right ? Anchor::start : Anchor::end, "",
                                         label.words.below));
        const double level = label.y - kNameSize / 3.0;
        Spot end = place.at(label.anchor);
        if (label.at_tail) end.y -= kTailAcross;
        into.paths.push_back(
            {.pen = Pen::leader,
             .runs = {{{edge, level}, {edge + (label.right ? -kGap : kGap), level}, end}}});
        if (label.at_tail) continue;
        into.circles.push_back({.at = end, .radius = 0.55, .pen = Pen::none, .fill = Fill::black});
    }
}

}  // namespace trialfit::draw
