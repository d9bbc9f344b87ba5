// SPDX-License-Identifier: MIT
#include <algorithm>
#include <cmath>
#include <cstddef>
#include <numbers>
#include <trialfit/draw/page/slot.hpp>
#include <trialfit/draw/page/view.hpp>
#include <vector>

namespace trialfit::draw {

namespace {

constexpr double kPlateBeyond = 7.0;  // metal drawn round the slot, mm
constexpr double kMostAcross = 16.0;  // of the screw on paper, mm
constexpr double kRow = 4.5;
constexpr double kGapToWords = 1.5;

// A slot with round ends about the level `y`: its ends reach from `x0` to `x1`.
std::vector<Spot> slot_run(double x0, double x1, double y, double radius) {
    constexpr int kSides = 24;
    std::vector<Spot> out;
    out.reserve(2 * kSides + 2);
    const auto arc = [&](double middle, double from) {
        for (int i = 0; i <= kSides; ++i) {
            const double angle = from + std::numbers::pi * i / kSides;
            out.push_back({middle + radius * std::cos(angle), y + radius * std::sin(angle)});
        }
    };
    arc(x1 - radius, -std::numbers::pi / 2.0);
    arc(x0 + radius, std::numbers::pi / 2.0);
    return out;
}

// What the picture is made of, on paper.
struct SlotPlace {
    double scale = 1.0;
    double screw_at = 0.0;  // x of its middle
    double level = 0.0;
    double radius = 0.0;

    [[nodiscard]] std::vector<Spot> run(double left, double right) const {
        return slot_run(screw_at - radius - scale * left, screw_at + radius + scale * right, level,
                        radius);
    }
};

void draw_slot(const SlotView& view, const SlotPlace& place, double width, Drawing& into) {
    const double half = place.radius + kPlateBeyond;
    const std::vector<Spot> plate{{0.0, place.level - half},
                                  {width, place.level - half},
                                  {width, place.level + half},
                                  {0.0, place.level + half}};
    const std::vector<Spot> slot = place.run(view.left, view.right);
    into.paths.push_back(filled_path(Fill::still, {plate, slot}));
    into.paths.push_back(
        {.pen = Pen::hatch, .runs = hatched({plate, slot}, {.degrees = 135.0, .pitch = 2.2})});
    if (view.file_left > 0.0 || view.file_right > 0.0)
        into.paths.push_back(filled_path(
            Fill::removal, {place.run(view.left + view.file_left, view.right + view.file_right)},
            Pen::removal));
    into.paths.push_back(filled_path(Fill::paper, {slot}, Pen::outline));
    into.circles.push_back({.at = {place.screw_at, place.level},
                            .radius = place.radius * 0.94,
                            .pen = Pen::detail,
                            .fill = Fill::paper});
}

// The distance from `from` to `to`, on a line of its own at `y`: a stroke at each end, and arrows
// where there is room for them.
void draw_distance(double from, double to, double y, Drawing& into) {
    constexpr double kStroke = 1.2;
    const double low = std::min(from, to);
    const double high = std::max(from, to);
    into.paths.push_back({.pen = Pen::dimension,
                          .runs = {{{low, y}, {high, y}},
                                   {{low, y - kStroke}, {low, y + kStroke}},
                                   {{high, y - kStroke}, {high, y + kStroke}}}});
    if (high - low < 2.5 * kArrowHead) return;
    into.paths.push_back(
        filled_path(Fill::black, {arrow_head({low, y}, 1.0), arrow_head({high, y}, -1.0)}));
}

// Words from `x` on to the right, or up to it; further back where the picture ends before they do.
void put_words(const std::string& words, double x, double y, bool to_right, double width,
               Drawing& into) {
    const double wide = text_width(words, kFigureSize, true);
    const double at = to_right ? std::min(x, width - wide) : std::max(x, wide);
    into.texts.push_back(
        text_at({at, y}, kFigureSize, to_right ? Anchor::start : Anchor::end, words, ""));
}

}  // namespace

Drawing slot_drawing(const SlotView& view, const SlotWords& words, double width) {
    Drawing into{.width = width};
    const double longest =
        view.screw / 2.0 + std::max(view.file_left + view.left, view.right + view.file_right);
    SlotPlace place{
        .scale = std::min((width / 2.0 - kPlateBeyond) / longest, kMostAcross / view.screw),
        .screw_at = width / 2.0};
    place.radius = place.scale * view.screw / 2.0;
    const auto row = [](std::size_t i) { return kRow * static_cast<double>(i + 1) - 1.0; };
    place.level = row(std::max(words.left.size(), words.right.size())) + kGapToWords +
                  kPlateBeyond + place.radius;
    draw_slot(view, place, width, into);

    const double over = place.level - place.radius - kPlateBeyond / 2.0;
    const double left_edge = place.screw_at - place.radius;
    const double right_edge = place.screw_at + place.radius;
    const double left_end = left_edge - place.scale * view.left;
    const double right_end = right_edge + place.scale * view.right;
    draw_distance(left_end, left_edge, over, into);
    draw_distance(right_edge, right_end, over, into);
    constexpr double kApart = 1.5;
    for (std::size_t i = 0; i < words.left.size(); ++i)
        put_words(words.left[i], place.screw_at - kApart, row(i), false, width, into);
    for (std::size_t i = 0; i < words.right.size(); ++i)
        put_words(words.right[i], place.screw_at + kApart, row(i), true, width, into);

    double foot = place.level + place.radius + kPlateBeyond;
    if (view.file_left > 0.0 || view.file_right > 0.0) {
        const bool to_right = view.file_right > 0.0;
        const double from = to_right ? right_end : left_end;
        const double filed = place.scale * (to_right ? view.file_right : -view.file_left);
        draw_distance(from, from + filed, place.level + place.radius + kPlateBeyond / 2.0, into);
        foot += kRow;
        put_words(words.file, from, foot - 0.5, to_right, width, into);
    }
    into.height = foot + 1.0;
    return into;
}

}  // namespace trialfit::draw
