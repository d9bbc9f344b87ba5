// SPDX-License-Identifier: MIT
#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <limits>
#include <numbers>
#include <trialfit/draw/page/obstacles.hpp>
#include <trialfit/draw/page/view.hpp>
#include <trialfit/quantity/units.hpp>
#include <utility>

namespace trialfit::draw {

namespace {

constexpr double kTooSmall = 1.2;  // mm on paper: less is not seen at arm's length
constexpr double kWanted = 4.0;    // mm on paper in the detail
constexpr double kNothing = 1e-6;  // less is no gap but rounding
constexpr std::size_t kMostDetails = 3;
// Of ISO 5455.
constexpr std::array kScales{1.0,   2.0,   5.0,   10.0,   20.0,   50.0,
                             100.0, 200.0, 500.0, 1000.0, 2000.0, 5000.0};
constexpr double kMark = 2.6;  // radius of the mark on the view

double length_of(const SectionDimension& dimension) {
    return std::hypot(dimension.to.z - dimension.from.z, dimension.to.r - dimension.from.r);
}

// Near the mark, where it covers no text and no line of a part; lines of dimensions only where
// there is no other place.
Text letter_at(const Spot& mark, const std::string& letter, const Drawing& drawing) {
    constexpr int kRings = 10;
    constexpr int kWays = 16;
    constexpr double kPad = 0.3;
    const Obstacles obstacles(drawing);
    for (const bool soft : {false, true})
        for (int ring = 0; ring < kRings; ++ring)
            for (int way = 0; way < kWays; ++way) {
                const double away = kMark + 2.2 + 1.2 * ring;
                const double angle = std::numbers::pi * (0.25 + 2.0 * way / kWays);
                Text text = text_at({mark.x + away * std::cos(angle),
                                     mark.y + away * std::sin(angle) + kNameSize / 3.0},
                                    kNameSize, Anchor::middle, letter, "");
                const Box wide{text.box.x0 - kPad, text.box.y0 - kPad, text.box.x1 + kPad,
                               text.box.y1 + kPad};
                const Box page{0.0, 0.0, drawing.width, std::numeric_limits<double>::infinity()};
                if (page.holds(wide) && !obstacles.meets(wide, soft)) return text;
            }
    return text_at(mark, kNameSize, Anchor::middle, letter, "");
}

// Arrows that point at both ends from outside, and the figure between them where it covers no line
// there; returns whether it does.
bool dimension_inside(const Spot& from, const Spot& to, bool across, const std::string& figure,
                      int clip, Drawing& into) {
    constexpr double kTail = 3.5;
    arrows_inwards(from, to, across, kTail, clip, into);
    const Spot middle{(from.x + to.x) / 2.0, (from.y + to.y) / 2.0};
    if (!across) return false;
    const Text text = text_at({middle.x + 2.2, middle.y + kFigureSize * 0.3}, kFigureSize,
                              Anchor::start, figure, "");
    if (Obstacles(into, clip).meets(text.box, false)) return false;
    into.texts.push_back(text);
    return true;
}

}  // namespace

std::vector<Magnified> too_small(const Section& section, double view_scale) {
    std::vector<Magnified> out;
    std::vector<std::size_t> order(section.dimensions.size());
    for (std::size_t i = 0; i < order.size(); ++i)
        order[i] = i;
    std::ranges::stable_sort(order, [&](std::size_t a, std::size_t b) {
        const SectionDimension& one = section.dimensions[a];
        const SectionDimension& other = section.dimensions[b];
        return std::pair{other.verdict, length_of(one)} < std::pair{one.verdict, length_of(other)};
    });
    for (const std::size_t i : order) {
        const SectionDimension& each = section.dimensions[i];
        const double length = length_of(each);
        const double shown = length * view_scale;
        if (each.kind == DimensionKind::stands_proud || shown >= kTooSmall || shown < kNothing ||
            out.size() >= kMostDetails)
            continue;
        if (const auto scale = detail_scale(length, kWanted, section.units))
            out.push_back({i, *scale});
    }
    return out;
}

std::string detail_letter(std::size_t index) {
    std::string out;
    out += static_cast<char>('Z' - index % 26);
    return out;
}

std::optional<double> detail_scale(double length, double wanted, quantity::Unit units) {
    const double mm = quantity::mm_per(units);
    const auto* const found = std::ranges::find_if(
        kScales, [length, wanted, mm](double scale) { return scale * mm * length >= wanted; });
    return found == kScales.end() ? std::nullopt : std::optional(*found * mm);
}

void draw_detail(const View& view, const Placement& place, const DetailAt& detail, Drawing& into) {
    const Spot mark = place.at(detail.middle);
    into.circles.push_back({.at = mark, .radius = kMark, .pen = Pen::detail});
    const Text letter = letter_at(mark, detail.letter, into);
    into.paths.push_back(on_paper(letter.box, 0.2));
    into.texts.push_back(letter);

    const Placement close{.scale = detail.scale,
                          .x0 = detail.at.x - detail.scale * detail.middle.z,
                          .axis = detail.at.y + detail.scale * detail.middle.r};
    const Box window{detail.at.x - detail.radius, detail.at.y - detail.radius,
                     detail.at.x + detail.radius, detail.at.y + detail.radius};
    const int clip = static_cast<int>(into.clips.size());
    into.clips.push_back({.at = detail.at, .radius = detail.radius});
    draw_metal(view, close, {.in_place = true, .window = &window, .clip = clip}, into);
    const bool has_room =
        detail.span && dimension_inside(close.at(detail.span->from), close.at(detail.span->to),
                                        detail.span->across, detail.figure, clip, into);
    into.circles.push_back({.at = detail.at, .radius = detail.radius, .pen = Pen::detail});
    const bool beside = detail.span && !has_room && !detail.figure.empty();
    into.texts.push_back(
        text_at({detail.at.x, detail.at.y + detail.radius + 4.2}, kFigureSize, Anchor::middle,
                beside ? detail.letter + ": " + detail.figure : detail.letter,
                detail.words + scale_words(detail.scale / quantity::mm_per(view.section->units))));
}

}  // namespace trialfit::draw
