// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <numbers>
#include <trialfit/draw/page/end.hpp>
#include <trialfit/draw/page/view.hpp>
#include <utility>

namespace trialfit::draw {

namespace {

// Radii on paper, mm: of the two faces of the gap, and as far as each ring's metal is drawn.
constexpr double kOuterFace = 44.0;
constexpr double kGapDrawn = 9.0;
constexpr double kInnerFace = kOuterFace - kGapDrawn;
constexpr double kOuterEdge = 53.0;
constexpr double kInnerEdge = 22.0;
constexpr double kHours = 55.0;
constexpr double kFigures = 65.0;
constexpr double kPicture = 78.0;  // half of what the picture takes, with its figures
constexpr double kMostOff = 6.0;   // a way off the axis is drawn no longer
constexpr double kBlock = 186.0;   // the title block and white beside it

Spot towards(const Spot& from, double degrees, double length) {
    const double angle = degrees * std::numbers::pi / 180.0;
    return {from.x + length * std::sin(angle), from.y - length * std::cos(angle)};
}

std::vector<Spot> circle_run(const Spot& middle, double radius) {
    constexpr int kSides = 120;
    std::vector<Spot> out;
    out.reserve(kSides);
    for (int i = 0; i < kSides; ++i)
        out.push_back(towards(middle, 360.0 * i / kSides, radius));
    return out;
}

void draw_ring(const Spot& middle, double from, double to, bool turns, Drawing& into) {
    const std::vector<std::vector<Spot>> region{circle_run(middle, to), circle_run(middle, from)};
    into.paths.push_back(filled_path(turns ? Fill::turning : Fill::still, region));
    into.paths.push_back(
        {.pen = Pen::hatch,
         .runs = hatched(region, {.degrees = turns ? 45.0 : 135.0, .pitch = 2.2})});
    into.paths.push_back(
        {.pen = turns ? Pen::outline_turning : Pen::outline, .closed = true, .runs = region});
}

void draw_arrow(const Spot& from, double degrees, double length, double head, Drawing& into) {
    const Spot tip = towards(from, degrees, length);
    const Spot back = towards(from, degrees, length - head);
    const Spot left = towards(back, degrees - 90.0, head / 3.0);
    const Spot right = towards(back, degrees + 90.0, head / 3.0);
    into.paths.push_back({.pen = Pen::detail, .runs = {{from, back}}});
    into.paths.push_back(filled_path(Fill::black, {{tip, left, right}}));
}

// A text as it stands at a place on the clock: beside it to the right or left, above it or below.
Text at_clock(const Spot& middle, double degrees, double radius, const std::string& strong,
              const std::string& words) {
    const Spot at = towards(middle, degrees, radius);
    const double side = std::sin(degrees * std::numbers::pi / 180.0);
    constexpr double kBeside = 0.3;
    Anchor anchor = Anchor::middle;
    if (side > kBeside) anchor = Anchor::start;
    if (side < -kBeside) anchor = Anchor::end;
    return text_at({at.x, at.y + kFigureSize / 3.0}, kFigureSize, anchor, strong, words);
}

// The figures read at one place: above and below the clock in a line, beside it one under another.
// Nothing where there is no room.
void put_figures(const Spot& middle, double degrees, const std::vector<std::string>& figures,
                 const Box& within, Drawing& into) {
    const double side = std::abs(std::sin(degrees * std::numbers::pi / 180.0));
    constexpr double kBeside = 0.3;
    std::vector<std::string> lines = figures;
    if (side <= kBeside) {
        std::string one;
        for (const std::string& each : figures)
            one += (one.empty() ? "" : ", ") + each;
        lines = {one};
    }
    std::vector<Text> texts;
    texts.reserve(lines.size());
    const double up = kLineHeight * (static_cast<double>(lines.size()) - 1.0) / 2.0;
    const Spot raised{middle.x, middle.y - up};
    for (std::size_t i = 0; i < lines.size(); ++i) {
        const Spot at{raised.x, raised.y + kLineHeight * static_cast<double>(i)};
        texts.push_back(at_clock(at, degrees, kFigures, lines[i], ""));
    }
    const bool free = std::ranges::all_of(texts, [&](const Text& text) {
        return within.holds(text.box) &&
               std::ranges::none_of(into.texts,
                                    [&text](const Text& each) { return each.box.meets(text.box); });
    });
    if (free) into.texts.insert(into.texts.end(), texts.begin(), texts.end());
}

void draw_clock(const Spot& middle, Drawing& into) {
    constexpr int kAll = 12;
    constexpr int kQuarter = 3;
    for (int hour = 1; hour <= kAll; ++hour) {
        const double degrees = 360.0 * hour / kAll;
        const double long_by = hour % kQuarter == 0 ? 3.0 : 1.6;
        into.paths.push_back({.pen = Pen::dimension,
                              .runs = {{towards(middle, degrees, kHours),
                                        towards(middle, degrees, kHours + long_by)}}});
        if (hour % kQuarter == 0)
            into.texts.push_back(
                at_clock(middle, degrees, kHours + 5.0, fmt::format("{}", hour), ""));
    }
}

// The axis of turning, and how to move the still ring.
void draw_middle(const EndView& view, const EndWords& words, const Spot& middle, Drawing& into) {
    constexpr double kCross = 4.0;
    constexpr double kArrow = 15.0;
    into.paths.push_back(
        {.pen = Pen::axis,
         .runs = {{{middle.x - kCross, middle.y}, {middle.x + kCross, middle.y}},
                  {{middle.x, middle.y - kCross}, {middle.x, middle.y + kCross}}}});
    if (!view.move) return;
    draw_arrow(middle, view.move->towards_deg, kArrow, 4.0, into);
    const bool up = std::cos(view.move->towards_deg * std::numbers::pi / 180.0) > 0.0;
    const double base = middle.y + (up ? 9.0 : -7.0);
    Text text = text_at({middle.x, base}, kFigureSize, Anchor::middle, words.move, "");
    const double most = 2.0 * std::sqrt(kInnerEdge * kInnerEdge - 100.0) - 2.0;
    const double wide = text.box.x1 - text.box.x0;
    if (wide > most)
        text = text_at({middle.x, base}, kFigureSize * most / wide, Anchor::middle, words.move, "");
    into.texts.push_back(std::move(text));
}

// Paragraphs from `top` on; what has no room is left out, and said to be.
void write_column(const EndWords& words, double x, double top, double bottom, double width,
                  Drawing& into) {
    double y = top;
    std::size_t number = 0;
    const auto room = [&](std::size_t lines) {
        return y + kLineHeight * static_cast<double>(lines + 1) <= bottom;
    };
    const auto add = [&](const std::vector<std::string>& lines, bool counted) {
        if (counted)
            draw_balloon({x + kBalloon, y + kLineHeight - 1.0}, fmt::format("{}", number), into);
        for (const std::string& line : lines) {
            y += kLineHeight;
            into.texts.push_back(fitted_text({x + (counted ? 7.0 : 0.0), y}, kNameSize, "", line,
                                             width - (counted ? 7.0 : 0.0)));
        }
        y += 2.0;
    };
    for (const std::vector<std::string>& each : words.numbered) {
        if (each.empty()) continue;
        ++number;
        if (room(each.size())) add(each, true);
    }
    for (const std::vector<std::string>& each : words.paragraphs) {
        if (room(each.size())) {
            add(each, false);
            continue;
        }
        add({words.more}, false);
        return;
    }
}

// Where the numbers stand: on the way that the turning ring runs out, and at the narrowest place.
void draw_numbers(const EndView& view, const EndWords& words, const Spot& middle, const Spot& still,
                  const Spot& turning, Drawing& into) {
    std::size_t number = 0;
    const auto wanted = [&words](std::size_t i) {
        return i < words.numbered.size() && !words.numbered[i].empty();
    };
    if (wanted(0) && view.turning_off) {
        const double rim = view.still_outside ? kInnerFace - 4.0 : kOuterEdge - 4.0;
        const Spot tip = towards(turning, 0.0, rim + 3.0);
        into.paths.push_back(filled_path(
            Fill::black, {{tip, {tip.x - 1.2, tip.y + 3.0}, {tip.x + 1.2, tip.y + 3.0}}}));
        const double inner = view.still_outside ? kInnerEdge : kOuterFace;
        draw_arrow(towards(turning, view.turning_off->towards_deg, inner + 1.5),
                   view.turning_off->towards_deg, 8.0, 2.6, into);
        draw_balloon(towards(turning, view.turning_off->towards_deg + 12.0, inner + 6.0),
                     fmt::format("{}", ++number), into);
    }
    if (wanted(1) && view.still_off) {
        // A ring outside is near on the side that it moved away from.
        const double at = view.still_off->towards_deg + (view.still_outside ? 180.0 : 0.0);
        const Spot outer = towards(view.still_outside ? still : turning, at, kOuterFace);
        const Spot inner = towards(view.still_outside ? turning : still, at, kInnerFace);
        const Spot mark{(outer.x + inner.x) / 2.0, (outer.y + inner.y) / 2.0};
        const double room = std::hypot(outer.x - inner.x, outer.y - inner.y);
        constexpr double kBeside = 3.0;
        draw_balloon(
            room > 2.0 * kBalloon + 0.6 ? mark : towards(middle, at, kOuterFace + kBeside + 1.0),
            fmt::format("{}", ++number), into);
    }
}

}  // namespace

double end_column(const PageSize& page) {
    return page.width - 2.0 * kMargin - 2.0 * kPicture - 4.0;
}

Drawing end_drawing(const EndView& view, const EndWords& words, const PageSize& page) {
    Drawing into{.width = page.width, .height = page.height};
    const double width = page.width - 2.0 * kMargin;
    const double top =
        draw_head(words.title, words.lines, kMargin, kMargin + width, kMargin, into) + 4.0;
    Drawing trial;
    const double block = draw_block(words.block, 1.0, 0.0, 0.0, trial);
    const double foot = page.height - kMargin - block;
    const Spot middle{kMargin + kPicture, (top + foot) / 2.0 - 2.0};

    double longest = std::max(view.gap, 1e-9);
    double off = 0.0;
    for (const auto& each : {view.still_off, view.turning_off})
        if (each) off = std::max(off, each->amount);
    double times = kGapDrawn / longest;
    if (off * times > kMostOff) times = kMostOff / off;
    const auto moved = [&](const std::optional<ClockVector>& by) {
        return by ? towards(middle, by->towards_deg, by->amount * times) : middle;
    };
    const Spot still = moved(view.still_off);
    const Spot turning = moved(view.turning_off);
    const double gap = std::max(0.0, view.gap) * times;
    const double inner_face = kOuterFace - gap;
    draw_ring(view.still_outside ? still : turning, kOuterFace, kOuterEdge, !view.still_outside,
              into);
    draw_ring(view.still_outside ? turning : still, kInnerEdge, inner_face, view.still_outside,
              into);
    if (view.nearest) {
        const double near = std::max(0.0, *view.nearest) * times;
        into.paths.push_back(
            {.pen = Pen::ghost, .closed = true, .runs = {circle_run(middle, kOuterFace - near)}});
    }
    draw_clock(middle, into);
    draw_middle(view, words, middle, into);
    draw_numbers(view, words, middle, still, turning, into);
    const Box picture{kMargin, top, kMargin + 2.0 * kPicture, foot};
    for (std::size_t i = 0; i < view.read_deg.size() && i < words.read.size(); ++i)
        put_figures(middle, view.read_deg[i], words.read[i], picture, into);
    into.texts.push_back(fitted_text(
        {kMargin, foot - 3.0}, kFigureSize, "",
        fmt::format("{} {:.0f} {}", words.before_times, times, words.after_times), width));
    static_cast<void>(draw_metal_key(words.turning, words.still, {kMargin, foot + 4.0},
                                     page.width - kMargin - kBlock, into));
    write_column(words, kMargin + 2.0 * kPicture + 4.0, top, foot - 7.0, end_column(page), into);
    static_cast<void>(draw_block(words.block, 1.0, page.width - kMargin, foot, into));
    return into;
}

}  // namespace trialfit::draw
