// SPDX-License-Identifier: MIT
#include <algorithm>
#include <array>
#include <cstddef>
#include <trialfit/draw/page/obstacles.hpp>

namespace trialfit::draw {

namespace {

bool is_hard(Pen pen) {
    constexpr std::array kHard{Pen::outline, Pen::outline_turning, Pen::thread, Pen::presumed,
                               Pen::unsure,  Pen::ghost,           Pen::foul,   Pen::removal};
    return std::ranges::find(kHard, pen) != kHard.end();
}

bool is_soft(Pen pen) {
    return pen == Pen::dimension || pen == Pen::leader || pen == Pen::axis;
}

}  // namespace

bool line_meets(const Spot& a, const Spot& b, const Box& box) {
    double first = 0.0;
    double last = 1.0;
    const auto keep = [&](double at, double grows) {
        if (grows == 0.0) {
            if (at < 0.0) last = -1.0;
        } else if (grows > 0.0) {
            first = std::max(first, -at / grows);
        } else {
            last = std::min(last, -at / grows);
        }
    };
    keep(a.x - box.x0, b.x - a.x);
    keep(box.x1 - a.x, a.x - b.x);
    keep(a.y - box.y0, b.y - a.y);
    keep(box.y1 - a.y, a.y - b.y);
    return first <= last;
}

Obstacles::Obstacles(const Drawing& drawing, int clip) {
    for (const Path& path : drawing.paths) {
        if (path.clip != clip || (!is_hard(path.pen) && !is_soft(path.pen))) continue;
        std::vector<Segment>& into = is_hard(path.pen) ? hard_ : soft_;
        for (const auto& run : path.runs) {
            for (std::size_t i = 0; i + 1 < run.size(); ++i)
                into.push_back({run[i], run[i + 1]});
            if (path.closed && run.size() > 2) into.push_back({run.back(), run.front()});
        }
    }
    for (const Circle& circle : drawing.circles)
        boxes_.push_back({circle.at.x - circle.radius, circle.at.y - circle.radius,
                          circle.at.x + circle.radius, circle.at.y + circle.radius});
    for (const Text& text : drawing.texts)
        texts_.push_back(text.box);
}

bool Obstacles::meets(const Box& box, bool through_soft) const {
    const auto line = [&box](const Segment& each) { return line_meets(each.a, each.b, box); };
    const auto area = [&box](const Box& each) { return each.meets(box); };
    return std::ranges::any_of(texts_, area) || std::ranges::any_of(boxes_, area) ||
           std::ranges::any_of(hard_, line) || (!through_soft && std::ranges::any_of(soft_, line));
}

bool Obstacles::texts_on(const Spot& from, const Spot& to) const {
    return std::ranges::any_of(texts_, [&](const Box& box) { return line_meets(from, to, box); });
}

}  // namespace trialfit::draw
