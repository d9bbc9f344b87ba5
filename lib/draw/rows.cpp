// SPDX-License-Identifier: MIT
#include <algorithm>
#include <cmath>
#include <cstddef>
#include <trialfit/draw/view.hpp>
#include <utility>

namespace trialfit::draw {

namespace {

constexpr double kArrow = 2.2;    // length of an arrow head
constexpr double kOutside = 4.0;  // line beyond arrows that point inwards from outside
constexpr double kRoomForArrows = 6.0;
constexpr double kPad = 1.6;
constexpr int kMostRows = 60;

struct Upright {
    double x = 0.0;
    double top = 0.0;
    double foot = 0.0;
};

struct Taken {
    std::vector<Box> boxes;
    std::vector<Upright> uprights;

    [[nodiscard]] bool crosses(const Upright& line) const {
        return std::any_of(boxes.begin(), boxes.end(), [&](const Box& box) {
            return line.x > box.x0 && line.x < box.x1 && line.top < box.y1 && line.foot > box.y0;
        });
    }
    [[nodiscard]] bool blocks(const Box& wanted, bool over_words) const {
        return std::any_of(boxes.begin(), boxes.end(),
                           [&](const Box& box) { return box.meets(wanted); }) ||
               (!over_words &&
                std::any_of(uprights.begin(), uprights.end(), [&](const Upright& line) {
                    return line.x > wanted.x0 && line.x < wanted.x1 && line.top < wanted.y1 &&
                           line.foot > wanted.y0;
                }));
    }
};

// One dimension on its way to a row.
struct Laid {
    std::size_t index = 0;
    Spot from;
    Spot to;
    Words words;
    double width = 0.0;
    bool right = true;
    bool apart = false;  // its words stand in a row of their own above the line

    [[nodiscard]] double low() const { return std::min(from.x, to.x); }
    [[nodiscard]] double high() const { return std::max(from.x, to.x); }
    [[nodiscard]] bool inside() const { return high() - low() >= kRoomForArrows; }
    [[nodiscard]] double tail() const { return inside() ? 0.0 : kOutside; }
};

Text words_of(const Laid& laid, const Box& within, double y) {
    const double level = y + kFigureSize / 3.0;
    if (laid.apart) {
        const double most = within.x1 - laid.width;
        const double x = std::clamp((laid.low() + laid.high() - laid.width) / 2.0, within.x0,
                                    std::max(within.x0, most));
        return text_at({x, level - kRowHeight}, kFigureSize, Anchor::start, laid.words.strong,
                       laid.words.rest);
    }
    return laid.right ? text_at({laid.high() + laid.tail() + kPad, level}, kFigureSize,
                                Anchor::start, laid.words.strong, laid.words.rest)
                      : text_at({laid.low() - laid.tail() - kPad, level}, kFigureSize, Anchor::end,
                                laid.words.strong, laid.words.rest);
}

std::vector<Laid> to_lay(const Section& section, const SectionWords& words, const Place& place,
                         const Box& within) {
    std::vector<Laid> out;
    const double middle = place.at({(section.z_min + section.z_max) / 2.0, 0.0}).x;
    for (std::size_t d = 0; d < section.dimensions.size(); ++d) {
        Laid laid{.index = d,
                  .from = place.at(section.dimensions[d].from),
                  .to = place.at(section.dimensions[d].to),
                  .words = words.dimensions[d]};
        laid.width = text_width(laid.words.strong, kFigureSize, true) +
                     text_width(laid.words.rest, kFigureSize);
        laid.right = (laid.low() + laid.high()) / 2.0 >= middle;
        const auto fits = [&](bool right) {
            return right ? laid.high() + laid.tail() + kPad + laid.width <= within.x1
                         : laid.low() - laid.tail() - kPad - laid.width >= within.x0;
        };
        if (!fits(laid.right)) laid.right = !laid.right;
        laid.apart = !fits(laid.right);
        out.push_back(std::move(laid));
    }
    // From the sides inwards: a line further in goes up where the words further out have ended.
    std::stable_sort(out.begin(), out.end(), [](const Laid& a, const Laid& b) {
        if (a.apart != b.apart) return b.apart;
        if (a.right != b.right) return a.right;
        return a.right ? a.low() > b.low() : a.high() < b.high();
    });
    return out;
}

std::vector<Spot> arrow(const Spot& tip, double towards) {
    return {
        tip, {tip.x + towards * kArrow, tip.y - 0.45}, {tip.x + towards * kArrow, tip.y + 0.45}};
}

void draw_line(const Laid& laid, double y, double value, Drawing& into) {
    Path lines{.pen = Pen::dimension};
    for (const Spot& end : {laid.from, laid.to})
        lines.runs.push_back({{end.x, end.y}, {end.x, y - 1.2}});
    lines.runs.push_back({{laid.low() - laid.tail(), y}, {laid.high() + laid.tail(), y}});
    into.paths.push_back(std::move(lines));
    const double out = laid.inside() ? 1.0 : -1.0;
    into.paths.push_back({.pen = Pen::none,
                          .fill = Fill::black,
                          .closed = true,
                          .runs = {arrow({laid.low(), y}, out), arrow({laid.high(), y}, -out)}});
    // Where there is a gap, it is shown in place; where metal is, that says it.
    if (value > 0.0) into.paths.push_back({.pen = Pen::outline, .runs = {{laid.from, laid.to}}});
    for (const Spot& end : {laid.from, laid.to})
        into.circles.push_back({.at = end, .radius = 0.6, .pen = Pen::none, .fill = Fill::black});
}

// Every dimension that finds a row in this order; the first that does not, else the count.
struct Rows {
    std::vector<std::pair<std::size_t, double>> at;  // index into the order, y
    std::size_t stuck = 0;
};

Rows rows_in(const std::vector<Laid>& order, const Box& within, double base, bool over_words) {
    Rows out;
    Taken taken;
    for (out.stuck = 0; out.stuck < order.size(); ++out.stuck) {
        const Laid& laid = order[out.stuck];
        bool placed = false;
        for (int row = 0; row < kMostRows && !placed; ++row) {
            const double y = base - kRowHeight * (row + 0.6);
            const Text text = words_of(laid, within, y);
            const Box line{laid.low() - laid.tail() - 0.5, y - 1.4, laid.high() + laid.tail() + 0.5,
                           y + 1.4};
            const Upright one{laid.low(), y - 1.2, std::max(laid.from.y, laid.to.y)};
            const Upright other{laid.high(), y - 1.2, one.foot};
            if (taken.blocks(text.box, over_words) || taken.blocks(line, over_words)) continue;
            if (!over_words && (taken.crosses(one) || taken.crosses(other))) continue;
            placed = true;
            taken.boxes.insert(taken.boxes.end(), {text.box, line});
            taken.uprights.insert(taken.uprights.end(), {one, other});
            out.at.emplace_back(out.stuck, y);
        }
        if (!placed) return out;
    }
    return out;
}

}  // namespace

double draw_dimensions(const Section& section, const SectionWords& words, const Place& place,
                       const Box& within, double base, Drawing& into) {
    std::vector<Laid> order = to_lay(section, words, place, within);
    Rows rows = rows_in(order, within, base, false);
    // What found no row goes first, next to the metal; where that goes round in circles, lines may
    // run behind words.
    for (std::size_t turn = 0; rows.stuck < order.size() && turn < 3 * order.size(); ++turn) {
        const auto stuck = order.begin() + static_cast<std::ptrdiff_t>(rows.stuck);
        std::rotate(order.begin(), stuck, stuck + 1);
        rows = rows_in(order, within, base, false);
    }
    if (rows.stuck < order.size()) rows = rows_in(order, within, base, true);
    double top = base;
    for (const auto& [index, y] : rows.at)
        draw_line(order[index], y, section.dimensions[order[index].index].value, into);
    for (const auto& [index, y] : rows.at) {
        const Text text = words_of(order[index], within, y);
        const Box& box = text.box;
        into.paths.push_back(
            {.pen = Pen::none,
             .fill = Fill::paper,
             .closed = true,
             .runs = {{{box.x0, box.y0}, {box.x1, box.y0}, {box.x1, box.y1}, {box.x0, box.y1}}}});
        into.texts.push_back(text);
        top = std::min({top, box.y0, y - 1.4});
    }
    return top - 1.0;
}

}  // namespace trialfit::draw
