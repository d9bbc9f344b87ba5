// SPDX-License-Identifier: MIT
#include <algorithm>
#include <array>
#include <cstddef>
#include <limits>
#include <trialfit/draw/page/view.hpp>
#include <utility>

namespace trialfit::draw {

namespace {

// Of turning parts; still ones are hatched the other way (180 degrees less). 45 degrees first, as
// drawing practice has it; then closer, then doubled, then other angles.
constexpr std::array<Hatch, 6> kHatches{{{.degrees = 45.0, .pitch = 2.2},
                                         {.degrees = 45.0, .pitch = 1.2},
                                         {.degrees = 45.0, .pitch = 3.4, .doubled = true},
                                         {.degrees = 30.0, .pitch = 1.7},
                                         {.degrees = 60.0, .pitch = 1.7},
                                         {.degrees = 30.0, .pitch = 3.0, .doubled = true}}};

Hatch hatch_of(std::size_t chosen, bool turns) {
    Hatch out = kHatches.at(chosen);
    if (!turns) out.degrees = 180.0 - out.degrees;
    return out;
}

Box around(const PartShape& part, double margin) {
    constexpr double kFarOut = std::numeric_limits<double>::infinity();
    Box box{kFarOut, kFarOut, -kFarOut, -kFarOut};
    for (const Loop& loop : part.outline) {
        for (const Point& p : loop) {
            box.x0 = std::min(box.x0, p.z);
            box.x1 = std::max(box.x1, p.z);
            box.y0 = std::min(box.y0, p.r);
            box.y1 = std::max(box.y1, p.r);
        }
    }
    box.x0 -= margin;
    box.y0 -= margin;
    box.x1 += margin;
    box.y1 += margin;
    return box;
}

bool on_axis(const Point& p, double extent) {
    return p.r <= 1e-9 * extent;
}

// The outline without the edges that lie on the axis: the other half goes on there.
std::vector<Loop> without_axis(const std::vector<Loop>& outline, double extent) {
    std::vector<Loop> runs;
    for (const Loop& loop : outline) {
        const auto lies = [&](std::size_t i) {
            return on_axis(loop[i % loop.size()], extent) &&
                   on_axis(loop[(i + 1) % loop.size()], extent);
        };
        std::size_t start = 0;
        while (start < loop.size() && !lies(start))
            ++start;
        if (start == loop.size()) {
            Loop run = loop;
            run.push_back(loop.front());
            runs.push_back(std::move(run));
            continue;
        }
        Loop run;
        for (std::size_t k = 1; k <= loop.size(); ++k) {
            run.push_back(loop[(start + k) % loop.size()]);
            if (!lies(start + k)) continue;
            if (run.size() > 1) runs.push_back(run);
            run.clear();
        }
    }
    return runs;
}

std::vector<Loop> as_loops(const std::vector<Line>& lines) {
    std::vector<Loop> out;
    out.reserve(lines.size());
    for (const Line& line : lines)
        out.push_back({line.from, line.to});
    return out;
}

// Puts paths down for one look: cut to the window, behind its clip.
class Brush {
public:
    Brush(const Placement& place, const Look& look, Drawing& into)
        : place_(place), look_(look), into_(into) {}

    void region(const std::vector<Loop>& loops, Pen pen, Fill fill) {
        auto runs = seen(loops);
        if (!runs.empty())
            into_.paths.push_back({pen, fill, true, std::move(runs), look_.clip, parts_});
    }
    // What is put down from here on is of that part.
    void of(std::vector<std::size_t> parts) { parts_ = std::move(parts); }
    void hatch(const std::vector<Loop>& loops, const Hatch& how, Pen pen) {
        auto runs = hatched(seen(loops), how);
        if (!runs.empty())
            into_.paths.push_back({pen, Fill::none, false, std::move(runs), look_.clip, {}});
    }
    void lines(const std::vector<Loop>& runs, Pen pen) {
        if (!runs.empty())
            into_.paths.push_back({pen, Fill::none, false, place_.at(runs), look_.clip, {}});
    }

private:
    [[nodiscard]] std::vector<std::vector<Spot>> seen(const std::vector<Loop>& loops) const {
        auto runs = place_.at(loops);
        return look_.window == nullptr ? runs : clipped(runs, *look_.window);
    }

    const Placement& place_;
    const Look& look_;
    Drawing& into_;
    std::vector<std::size_t> parts_{};
};

void draw_part(const PartShape& part, const Hatch& how, bool in_place, double extent,
               Brush& brush) {
    const bool aside = in_place && part.off_place > 0.0;
    const std::vector<Loop>& outline = aside ? part.in_place : part.outline;
    const double back = aside ? -part.off_place : 0.0;
    const auto shifted = [back](const std::vector<Line>& lines) {
        std::vector<Loop> out = as_loops(lines);
        for (Loop& loop : out)
            loop = moved(loop, back);
        return out;
    };
    brush.region(outline, Pen::none, part.turns ? Fill::turning : Fill::still);
    brush.hatch(outline, how, Pen::hatch);
    brush.lines(shifted(part.seams), Pen::seam);
    const Pen edge = part.turns ? Pen::outline_turning : Pen::outline;
    brush.lines(without_axis(outline, extent), edge);
    brush.lines(shifted(part.bare_cones), edge);
    brush.lines(shifted(part.threads), Pen::thread);
    brush.lines(shifted(part.presumed), Pen::presumed);
    std::vector<Loop> unsure = part.unsure;
    for (Loop& loop : unsure)
        loop = moved(loop, back);
    brush.lines(without_axis(unsure, extent), Pen::unsure);
}

}  // namespace

std::vector<Spot> Placement::at(const Loop& loop) const {
    std::vector<Spot> out;
    out.reserve(loop.size());
    for (const Point& p : loop)
        out.push_back(at(p));
    return out;
}

std::vector<std::vector<Spot>> Placement::at(const std::vector<Loop>& loops) const {
    std::vector<std::vector<Spot>> out;
    out.reserve(loops.size());
    for (const Loop& loop : loops)
        out.push_back(at(loop));
    return out;
}

std::vector<Hatch> hatches(const std::vector<View>& views) {
    std::vector<std::vector<Box>> boxes;
    for (const View& view : views) {
        const Section& section = *view.section;
        const double margin = 0.02 * std::max(section.r_max, section.z_max - section.z_min);
        boxes.emplace_back();
        for (const PartShape& part : section.parts)
            boxes.back().push_back(around(part, margin / 2.0));
    }
    const auto near = [&boxes](std::size_t p, std::size_t q) {
        return std::ranges::any_of(boxes, [p, q](const std::vector<Box>& all) {
            return std::max(p, q) < all.size() && all[p].meets(all[q]);
        });
    };
    std::vector<std::size_t> chosen;
    std::vector<bool> turns;
    for (const View& view : views)
        for (std::size_t p = turns.size(); p < view.section->parts.size(); ++p)
            turns.push_back(view.section->parts[p].turns);
    for (std::size_t p = 0; p < turns.size(); ++p) {
        std::array<bool, kHatches.size()> used{};
        for (std::size_t q = 0; q < p; ++q)
            if (turns[q] == turns[p] && near(p, q)) used.at(chosen[q]) = true;
        auto* const free = std::ranges::find(used, false);
        chosen.push_back(free == used.end() ? p % kHatches.size()
                                            : static_cast<std::size_t>(free - used.begin()));
    }
    std::vector<Hatch> out;
    out.reserve(chosen.size());
    for (std::size_t p = 0; p < chosen.size(); ++p)
        out.push_back(hatch_of(chosen[p], turns[p]));
    return out;
}

void draw_metal(const View& view, const Placement& place, const Look& look, Drawing& into) {
    const Section& section = *view.section;
    const double extent = std::max(section.r_max, section.z_max - section.z_min);
    Brush brush(place, look, into);
    for (const bool over : {false, true})
        for (std::size_t p = 0; p < section.parts.size(); ++p)
            if (section.parts[p].over_others == over) {
                brush.of({p});
                draw_part(section.parts[p], view.hatching[p], look.in_place, extent, brush);
            }
    brush.of({});
    // Not hatched, as a key that is cut along its length is not (ISO 128).
    for (const KeyDrawn& key : section.keys) {
        if (key.slot.empty()) continue;
        brush.region({key.slot}, Pen::none, Fill::paper);
        brush.region({key.metal}, Pen::unsure, Fill::paper);
    }
    for (const ShimsDrawn& shims : section.shims)
        brush.region(shims.zone, Pen::outline, Fill::black);
    for (const Foul& foul : section.fouls) {
        brush.region(foul.zone, Pen::none, Fill::foul);
        brush.hatch(foul.zone, {.degrees = 45.0, .pitch = 1.1}, Pen::foul_hatch);
        brush.hatch(foul.zone, {.degrees = 135.0, .pitch = 1.1}, Pen::foul_hatch);
    }
    for (const Removal& removal : section.removals) {
        brush.hatch(removal.zone, {.degrees = 90.0, .pitch = 0.9}, Pen::foul_hatch);
        brush.region(removal.zone, Pen::removal, Fill::none);
    }
    if (!look.in_place)
        for (const PartShape& part : section.parts)
            brush.lines(without_axis(part.in_place, extent), Pen::ghost);
    for (const Foul& foul : section.fouls)
        brush.region(foul.zone, Pen::foul, Fill::none);
}

}  // namespace trialfit::draw
