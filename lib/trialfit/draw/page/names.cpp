// SPDX-License-Identifier: MIT
#include <algorithm>
#include <array>
#include <cstddef>
#include <limits>
#include <trialfit/draw/page/view.hpp>
#include <utility>

namespace trialfit::draw {

namespace {

constexpr double kGap = 2.0;    // between a text and its leader
constexpr double kClear = 0.4;  // mm on paper between a leader and the parts that it passes

struct Candidate {
    Point at;
    double thick = 0.0;
};

void add_points(const Solid& s, std::vector<Candidate>& points) {
    constexpr std::array kAlong{0.5, 0.2, 0.8};
    constexpr std::array kAcross{0.25, 0.5, 0.8, 0.93, 0.08};
    for (const double along : kAlong) {
        const double inner = s.inner0 + along * (s.inner1 - s.inner0);
        const double outer = s.outer0 + along * (s.outer1 - s.outer0);
        for (const double across : kAcross)
            points.push_back({{s.z0 + along * (s.z1 - s.z0), inner + across * (outer - inner)},
                              std::min(outer - inner, s.z1 - s.z0) * (along == 0.5 ? 1.0 : 0.8)});
    }
}

// How many other parts a level leader from `at` to the edge of all metal runs through.
int in_the_way(const Section& section, const std::vector<std::size_t>& named, const Point& at,
               bool right, double pad) {
    const Line way{at, {right ? section.z_max + 1.0 : section.z_min - 1.0, at.r}};
    int count = 0;
    for (std::size_t p = 0; p < section.parts.size(); ++p)
        if (std::ranges::find(named, p) == named.end() && runs_through(way, section.parts[p], pad))
            ++count;
    return count;
}

// Prefers a clear way, then thick metal, then the nearer side.
void choose(const Section& section, const std::vector<Candidate>& points, double scale,
            SideLabel& label) {
    double best = std::numeric_limits<double>::infinity();
    const double width = section.z_max - section.z_min;
    for (const Candidate& each : points) {
        for (const bool right : {true, false}) {
            const double way = right ? section.z_max - each.at.z : each.at.z - section.z_min;
            const int crossed = in_the_way(section, label.parts, each.at, right, kClear / scale);
            const double cost = 10.0 * crossed + 5.0 * way / width - each.thick / section.r_max;
            if (cost >= best) continue;
            best = cost;
            label.anchor = each.at;
            label.right = right;
            label.inside = crossed > 0;
        }
        label.anchors.push_back(each.at);
    }
}

double width_of(const Words& words) {
    return std::max(text_width(words.strong, kNameSize, true) + text_width(words.rest, kNameSize),
                    text_width(words.below, kFigureSize));
}

Point middle_of(const std::vector<Loop>& zone) {
    Point middle;
    for (const Point& p : zone.front()) {
        middle.z += p.z / static_cast<double>(zone.front().size());
        middle.r += p.r / static_cast<double>(zone.front().size());
    }
    return middle;
}

// Collects the labels of one section.
class Labels {
public:
    enum class Kind { name, zone, tail };

    Labels(const Section& section, double scale) : section_(section), scale_(scale) {}

    void add(const Words& words, std::vector<std::size_t> parts,
             const std::vector<Candidate>& points, Kind kind = Kind::zone) {
        if (points.empty() || (words.strong.empty() && words.rest.empty())) return;
        SideLabel label{.words = words,
                        .parts = std::move(parts),
                        .at_tail = kind == Kind::tail,
                        .names_part = kind == Kind::name};
        label.width = width_of(words);
        choose(section_, points, scale_, label);
        if (section_.parts.size() > kMostNamedInside) {
            // A leader through other parts would name the wrong one.
            if (label.inside && label.names_part) return;
            label.inside = false;
        }
        out_.push_back(std::move(label));
    }
    [[nodiscard]] std::vector<SideLabel> take() { return std::move(out_); }

private:
    const Section& section_;
    double scale_;
    std::vector<SideLabel> out_;
};

void add_parts(const Section& section, const SectionWords& words, Labels& into) {
    for (std::size_t p = 0; p < section.parts.size(); ++p) {
        const PartShape& part = section.parts[p];
        std::vector<Candidate> points;
        for (const Solid& s : part.pieces)
            add_points(s, points);
        for (const Line& line : part.bare_cones)
            points.push_back(
                {{(line.from.z + line.to.z) / 2.0, (line.from.r + line.to.r) / 2.0}, 0.0});
        into.add(words.parts[p], {p}, points, Labels::Kind::name);
    }
}

void add_work(const Section& section, const SectionWords& words, Labels& into) {
    for (std::size_t f = 0; f < section.fouls.size(); ++f) {
        const Foul& foul = section.fouls[f];
        if (foul.zone.empty()) continue;
        into.add(words.fouls[f], {foul.inboard_part, foul.outboard_part},
                 {{middle_of(foul.zone), 0.0}});
    }
    for (std::size_t r = 0; r < section.removals.size(); ++r) {
        const Removal& removal = section.removals[r];
        if (removal.zone.empty()) continue;
        into.add(words.removals[r], {removal.part}, {{middle_of(removal.zone), 0.0}});
    }
    for (std::size_t f = 0; f < section.finishes.size() && f < words.finishes.size(); ++f) {
        const FinishDrawn& finish = section.finishes[f];
        if (!finish.datum) into.add(words.finishes[f], {finish.part}, {{finish.to, 0.0}});
    }
}

}  // namespace

bool runs_through(const Line& way, const PartShape& part, double pad) {
    return std::ranges::any_of(part.pieces,
                               [&](const Solid& s) { return length_within(way, s, pad) > 0.0; });
}

std::vector<SideLabel> side_labels(const Section& section, const SectionWords& words,
                                   double scale) {
    Labels out(section, scale);
    add_parts(section, words, out);
    add_work(section, words, out);
    for (std::size_t s = 0; s < section.shims.size() && s < words.shims.size(); ++s) {
        const ShimsDrawn& shims = section.shims[s];
        if (!shims.zone.empty())
            out.add(words.shims[s], {shims.under, shims.over}, {{middle_of(shims.zone), 0.0}});
    }
    for (std::size_t k = 0; k < section.keys.size() && k < words.keys.size(); ++k)
        out.add(words.keys[k], {section.keys[k].hub, section.keys[k].shaft},
                {{section.keys[k].at, 0.0}});
    for (std::size_t d = 0; d < section.dimensions.size(); ++d) {
        const SectionDimension& each = section.dimensions[d];
        if (!each.across) continue;
        const Point tail{each.to.z, std::max(each.from.r, each.to.r) + kTailAcross / scale};
        out.add(words.dimensions[d], each.parts, {{tail, 0.0}}, Labels::Kind::tail);
    }
    return out.take();
}

double height_of(const SideLabel& label) {
    return label.words.below.empty() ? kRowHeight : 2.0 * kRowHeight - 0.6;
}

void spread(std::vector<SideLabel>& labels, const Placement& place, double top, double bottom) {
    for (const bool right : {false, true}) {
        std::vector<SideLabel*> side;
        for (SideLabel& label : labels)
            if (label.right == right && !label.inside) side.push_back(&label);
        std::ranges::stable_sort(
            side, [](const SideLabel* a, const SideLabel* b) { return a->anchor.r > b->anchor.r; });
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

void draw_labels(const std::vector<SideLabel>& labels, const Placement& place,
                 const LabelColumns& at, Drawing& into) {
    for (const SideLabel& label : labels) {
        if (label.inside) continue;
        const double x = label.right ? at.right : at.left;
        const double towards = label.right ? -1.0 : 1.0;
        const Anchor anchor = label.right ? Anchor::start : Anchor::end;
        into.texts.push_back(
            text_at({x, label.y}, kNameSize, anchor, label.words.strong, label.words.rest));
        if (!label.words.below.empty())
            into.texts.push_back(text_at({x, label.y + kRowHeight - 0.6}, kFigureSize, anchor, "",
                                         label.words.below));
        const double edge = x + towards * kGap / 2.0;
        const double level = label.y - kNameSize / 3.0;
        const Spot end = place.at(label.anchor);
        // Level as far as there is metal, so that it crosses none but what was looked at.
        const double bend = label.right ? at.metal_right : at.metal_left;
        Path leader{.pen = Pen::leader, .runs = {{{edge, level}}}, .parts = label.parts};
        leader.runs[0].push_back({bend, end.y});
        leader.runs[0].push_back(end);
        into.paths.push_back(std::move(leader));
        if (label.at_tail) continue;
        into.circles.push_back({.at = end, .radius = 0.55, .pen = Pen::none, .fill = Fill::black});
    }
}

}  // namespace trialfit::draw
