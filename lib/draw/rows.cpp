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
    [[nodiscard]] bool blocks(const Box& wanted) const {
        return std::any_of(boxes.begin(), boxes.end(),
                           [&](const Box& box) { return box.meets(wanted); }) ||
               std::any_of(uprights.begin(), uprights.end(), [&](const Upright& line) {
                   return line.x > wanted.x0 && line.x < wanted.x1 && line.top < wanted.y1 &&
                          line.foot > wanted.y0;
               });
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

void draw_line(const Laid& laid, double y, stack::Verdict verdict, Drawing& into) {
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
    into.paths.push_back({.pen = verdict == stack::Verdict::holds ? Pen::outline : Pen::foul,
                          .runs = {{laid.from, laid.to}}});
    for (const Spot& end : {laid.from, laid.to})
        into.circles.push_back({.at = end, .radius = 0.6, .pen = Pen::none, .fill = Fill::black});
}

}  // namespace

double draw_dimensions(const Section& section, const SectionWords& words, const Place& place,
                       const Box& within, double base, Drawing& into) {
    Taken taken;
    double top = base;
    for (const Laid& laid : to_lay(section, words, place, within)) {
        for (int row = 0; row < kMostRows; ++row) {
            const double y = base - kRowHeight * (row + 0.6);
            const Text text = words_of(laid, within, y);
            const Box line{laid.low() - laid.tail() - 0.5, y - 1.4, laid.high() + laid.tail() + 0.5,
                           y + 1.4};
            const Upright one{laid.low(), y - 1.2, std::max(laid.from.y, laid.to.y)};
            const Upright other{laid.high(), y - 1.2, one.foot};
            if (taken.blocks(text.box) || taken.blocks(line) || taken.crosses(one) ||
                taken.crosses(other))
                continue;
            taken.boxes.push_back(text.box);
            taken.boxes.push_back(line);
            taken.uprights.push_back(one);
            taken.uprights.push_back(other);
            draw_line(laid, y, section.dimensions[laid.index].verdict, into);
            into.texts.push_back(text);
            top = std::min({top, text.box.y0, line.y0});
            break;
        }
    }
    return top - 1.0;
}

}  // namespace trialfit::draw
