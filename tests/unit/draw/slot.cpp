// SPDX-License-Identifier: MIT
#include <doctest/doctest.h>

#include <algorithm>
#include <array>
#include <limits>
#include <trialfit/draw/page/slot.hpp>

using namespace trialfit;

namespace {

constexpr double kWidth = 62.0;

draw::Drawing drawn(const draw::SlotView& view) {
    return draw::slot_drawing(
        view, {{"clockwise", "earlier: 1.60"}, {"anticlockwise", "later: 1.40"}, "missing: 1.94"},
        kWidth);
}

struct Reach {
    double from = std::numeric_limits<double>::infinity();
    double to = -std::numeric_limits<double>::infinity();
};

// How far what is drawn with a pen reaches across the page; nothing drawn: no reach.
Reach reach_of(const draw::Drawing& drawing, draw::Pen pen) {
    Reach out;
    for (const draw::Path& path : drawing.paths) {
        if (path.pen != pen) continue;
        for (const draw::Spot& spot : path.runs.front()) {
            out.from = std::min(out.from, spot.x);
            out.to = std::max(out.to, spot.x);
        }
    }
    return out;
}

}  // namespace

TEST_CASE("a slot is drawn to one scale about its screw, and what is missing lies beyond its end") {
    for (const bool left : {true, false}) {
        CAPTURE(left);
        draw::SlotView view{.left = 1.6, .right = 1.4, .screw = 5.0};
        (left ? view.file_left : view.file_right) = 1.94;
        const draw::Drawing drawing = drawn(view);
        REQUIRE(drawing.circles.size() == 1);
        const double screw = drawing.circles.front().at.x;
        const Reach slot = reach_of(drawing, draw::Pen::outline);
        const double scale = (slot.to - slot.from) / (1.6 + 5.0 + 1.4);
        CHECK(screw - slot.from == doctest::Approx(scale * (2.5 + 1.6)));
        CHECK(slot.to - screw == doctest::Approx(scale * (2.5 + 1.4)));
        const Reach filed = reach_of(drawing, draw::Pen::removal);
        CHECK(slot.from - filed.from == doctest::Approx(left ? scale * 1.94 : 0.0));
        CHECK(filed.to - slot.to == doctest::Approx(left ? 0.0 : scale * 1.94));
    }
}

TEST_CASE(
    "a slot that reaches shows nothing to file, and its words stay apart and on the picture") {
    const std::array<draw::SlotView, 4> views{
        {{.left = 1.6, .right = 1.4, .screw = 5.0},
         {.left = 0.0, .right = 30.0, .screw = 4.0},
         {.left = 3.0, .right = 0.0, .screw = 6.0, .file_right = 9.0},
         {.left = 0.06, .right = 0.06, .screw = 0.2, .file_left = 0.1}}};
    for (const draw::SlotView& view : views) {
        const draw::Drawing drawing = drawn(view);
        const bool files = view.file_left > 0.0 || view.file_right > 0.0;
        CHECK((reach_of(drawing, draw::Pen::removal).to > 0.0) == files);
        CHECK(drawing.texts.size() == (files ? 5 : 4));
        const draw::Box page{0.0, 0.0, kWidth, drawing.height};
        for (std::size_t i = 0; i < drawing.texts.size(); ++i) {
            CHECK(page.holds(drawing.texts[i].box));
            for (std::size_t j = 0; j < i; ++j)
                CHECK_FALSE(drawing.texts[i].box.meets(drawing.texts[j].box));
        }
        const Reach slot = reach_of(drawing, draw::Pen::outline);
        CHECK(slot.from >= 0.0);
        CHECK(slot.to <= kWidth);
    }
}
