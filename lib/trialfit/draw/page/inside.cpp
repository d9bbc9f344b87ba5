// SPDX-License-Identifier: MIT
#include <fmt/format.h>
#include <algorithm>
#include <cmath>
#include <cstddef>
#include <numbers>
#include <trialfit/draw/page/obstacles.hpp>
#include <trialfit/draw/page/view.hpp>
#include <utility>

// Labels that no leader reaches from the side without crossing other parts: set in the view itself,
// as near as there is room.
namespace trialfit::draw {

namespace {

// White round a text, and the steps away from what it names, mm.
struct Fineness {
    double white = 0.5;
    double step = 1.5;
};
constexpr Fineness kUsualWhite;
constexpr Fineness kTightWhite{.white = 0.1, .step = 0.4};
constexpr int kSteps = 29;
constexpr std::size_t kMostAnchors = 5;
constexpr int kWays = 24;

// Where a text of this size may stand, and the leader to it.
struct Place {
    Box box;
    Spot from;  // of the leader, on the box's edge
    Spot to;
    bool leader = true;
};

Spot nearest_on(const Box& box, const Spot& to) {
    return {std::clamp(to.x, box.x0, box.x1), std::clamp(to.y, box.y0, box.y1)};
}

class Search {
public:
    Search(const Section& section, const Placement& place, const Box& within,
           const Drawing& drawing)
        : section_(section), place_(place), within_(within), obstacles_(drawing) {}

    // Nothing where there is no room. `soft`: lines of dimensions may be interrupted.
    [[nodiscard]] bool find(const SideLabel& label, const Spot& size, bool soft, Place& found,
                            const Fineness& fine = kUsualWhite) const {
        // Some of the points will do, from all over what is named.
        const std::size_t stride = std::max<std::size_t>(1, label.anchors.size() / kMostAnchors);
        for (int step = 0; step <= kSteps; ++step) {
            const double away = fine.step * step;
            for (std::size_t a = 0; a < label.anchors.size(); a += stride)
                for (int way = 0; way < (away > 0.0 ? kWays : 1); ++way) {
                    const double angle = 2.0 * std::numbers::pi * way / kWays;
                    const Spot at = place_.at(label.anchors[a]);
                    const Spot middle{at.x + away * std::cos(angle) * kWide,
                                      at.y + away * std::sin(angle)};
                    if (fits(label, size, at, middle, soft, fine.white, found)) return true;
                }
        }
        return false;
    }

private:
    // Texts are wider than high.
    static constexpr double kWide = 1.4;

    [[nodiscard]] bool fits(const SideLabel& label, const Spot& size, const Spot& at,
                            const Spot& middle, bool soft, double white, Place& found) const {
        const Box box{middle.x - size.x / 2.0, middle.y - size.y / 2.0, middle.x + size.x / 2.0,
                      middle.y + size.y / 2.0};
        const Box wide{box.x0 - white, box.y0 - white, box.x1 + white, box.y1 + white};
        if (!within_.holds(wide) || obstacles_.meets(wide, soft) || in_others(label, middle))
            return false;
        const bool inside = box.x0 < at.x && at.x < box.x1 && box.y0 < at.y && at.y < box.y1;
        const Spot from = nearest_on(wide, at);
        // A text in its own metal needs no leader; one beside a zone of two parts does.
        const bool own = label.names_part && in_own(label, middle);
        if (inside && !own) return false;
        if (!own && (crosses(label, from, at) || obstacles_.texts_on(from, at))) return false;
        found = {box, from, at, !own};
        return true;
    }
    [[nodiscard]] bool in_others(const SideLabel& label, const Spot& middle) const {
        const Point at = place_.back(middle);
        const Line here{{at.z - 1e-6, at.r}, {at.z + 1e-6, at.r}};
        return others(label, here, 0.0);
    }
    [[nodiscard]] bool in_own(const SideLabel& label, const Spot& middle) const {
        const Point at = place_.back(middle);
        return runs_through({{at.z - 1e-6, at.r}, {at.z + 1e-6, at.r}},
                            section_.parts[label.parts.front()], 0.0);
    }
    [[nodiscard]] bool crosses(const SideLabel& label, const Spot& from, const Spot& to) const {
        constexpr double kClear = 0.2;
        return others(label, {place_.back(from), place_.back(to)}, kClear / place_.scale);
    }
    [[nodiscard]] bool others(const SideLabel& label, const Line& line, double pad) const {
        for (std::size_t p = 0; p < section_.parts.size(); ++p)
            if (std::ranges::find(label.parts, p) == label.parts.end() &&
                runs_through(line, section_.parts[p], pad))
                return true;
        return false;
    }

    const Section& section_;
    const Placement& place_;
    const Box& within_;
    Obstacles obstacles_;
};

void draw_leader(const SideLabel& label, const Place& at, Drawing& into) {
    if (!at.leader) return;
    into.paths.push_back({.pen = Pen::leader, .runs = {{at.from, at.to}}, .parts = label.parts});
    if (!label.at_tail)
        into.circles.push_back(
            {.at = at.to, .radius = 0.55, .pen = Pen::none, .fill = Fill::black});
}

bool put_words(const SideLabel& label, const Search& search, Drawing& into) {
    const double first =
        text_width(label.words.strong, kNameSize, true) + text_width(label.words.rest, kNameSize);
    const bool two = !label.words.below.empty();
    const double line = kNameSize * 1.05;
    const Spot size{std::max(first, text_width(label.words.below, kFigureSize)),
                    two ? line + kRowHeight - 0.6 : line};
    Place at;
    if (!search.find(label, size, false, at) && !search.find(label, size, true, at)) return false;
    into.paths.push_back(on_paper(at.box, 0.3));
    draw_leader(label, at, into);
    const double base = at.box.y0 + 0.8 * kNameSize;
    // The box is as wide as the widest font makes it: in any other the words stand in its middle.
    const double middle = (at.box.x0 + at.box.x1) / 2.0;
    into.texts.push_back(
        text_at({middle, base}, kNameSize, Anchor::middle, label.words.strong, label.words.rest));
    if (two)
        into.texts.push_back(text_at({middle, base + kRowHeight - 0.6}, kFigureSize, Anchor::middle,
                                     "", label.words.below));
    return true;
}

bool put_number(const SideLabel& label, const std::string& number, const Search& search,
                Drawing& into) {
    const Spot size{2.0 * kBalloon, 2.0 * kBalloon};
    Place at;
    if (!search.find(label, size, false, at) && !search.find(label, size, true, at) &&
        !search.find(label, size, true, at, kTightWhite))
        return false;
    const Spot middle{(at.box.x0 + at.box.x1) / 2.0, (at.box.y0 + at.box.y1) / 2.0};
    into.paths.push_back(on_paper(at.box, 0.2));
    draw_leader(label, at, into);
    draw_balloon(middle, number, into);
    return true;
}

}  // namespace

std::vector<Words> put_inside(const Section& section, const Placement& place,
                              const std::vector<SideLabel>& labels, const Box& within,
                              const std::string& no_room, Drawing& into) {
    std::vector<Words> listed;
    int number = 0;
    for (const SideLabel& label : labels) {
        if (!label.inside || put_words(label, Search(section, place, within, into), into)) continue;
        const std::string next = fmt::format("{}", number + 1);
        Words words = label.words;
        if (put_number(label, next, Search(section, place, within, into), into)) {
            ++number;
            words.strong = next + " " + words.strong;
        } else {
            words.rest += no_room;
        }
        if (!words.below.empty()) words.rest += ", " + std::exchange(words.below, {});
        listed.push_back(std::move(words));
    }
    return listed;
}

}  // namespace trialfit::draw
