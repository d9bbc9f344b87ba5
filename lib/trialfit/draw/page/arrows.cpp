// SPDX-License-Identifier: MIT
#include <algorithm>
#include <trialfit/draw/page/view.hpp>

namespace trialfit::draw {

namespace {

constexpr double kHead = 2.0;
constexpr double kHalfHead = 0.5;
constexpr double kHalo = 0.5;  // white beside a line that runs over hatching

}  // namespace

std::vector<Spot> arrow_head(const Spot& tip, double towards) {
    return {tip,
            {tip.x + towards * kArrowHead, tip.y - 0.45},
            {tip.x + towards * kArrowHead, tip.y + 0.45}};
}

void arrows_inwards(const Spot& from, const Spot& to, bool across, double tail, int clip,
                    Drawing& into) {
    // `u` runs along the distance, `v` beside it.
    const auto spot = [&](double u, double v) {
        return across ? Spot{from.x + v, u} : Spot{u, from.y + v};
    };
    const double low = across ? std::min(from.y, to.y) : std::min(from.x, to.x);
    const double high = across ? std::max(from.y, to.y) : std::max(from.x, to.x);
    const auto one_side = [&](double tip, double out) {
        const double end = tip + out * tail;
        into.paths.push_back(filled_path(
            Fill::paper,
            {{spot(tip, -kHalo), spot(end, -kHalo), spot(end, kHalo), spot(tip, kHalo)}}, Pen::none,
            clip));
        into.paths.push_back(
            {.pen = Pen::dimension, .runs = {{spot(tip, 0.0), spot(end, 0.0)}}, .clip = clip});
        const double back = tip + out * kHead;
        into.paths.push_back(filled_path(
            Fill::black, {{spot(tip, 0.0), spot(back, -kHalfHead), spot(back, kHalfHead)}},
            Pen::none, clip));
    };
    one_side(low, -1.0);
    one_side(high, 1.0);
}

void draw_across(const Section& section, const Placement& place, Drawing& into) {
    for (const SectionDimension& each : section.dimensions)
        if (each.across)
            arrows_inwards(place.at(each.from), place.at(each.to), true, kTailAcross, -1, into);
}

}  // namespace trialfit::draw
