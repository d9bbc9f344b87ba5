// SPDX-License-Identifier: MIT
#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <trialfit/draw/page/view.hpp>
#include <utility>

namespace trialfit::draw {

namespace {

constexpr double kTooSmall = 1.2;  // mm on paper: less is not seen at arm's length
constexpr double kWanted = 4.0;    // mm on paper in the detail
constexpr double kNothing = 1e-6;  // less is no gap but rounding
constexpr std::size_t kMostDetails = 3;
constexpr std::array kTimes{5.0, 10.0, 20.0, 50.0, 100.0, 200.0, 500.0, 1000.0, 2000.0};
constexpr double kMark = 2.6;  // radius of the mark on the view

double length_of(const SectionDimension& dimension) {
    return std::hypot(dimension.to.z - dimension.from.z, dimension.to.r - dimension.from.r);
}

Point middle_of(const SectionDimension& dimension) {
    return {(dimension.from.z + dimension.to.z) / 2.0, (dimension.from.r + dimension.to.r) / 2.0};
}

// Beside the mark, where no text is yet.
Text letter_at(const Spot& mark, const std::string& letter, const Drawing& drawing) {
    constexpr double kAway = kMark + 0.8;
    const std::array<std::pair<Spot, Anchor>, 4> tries{
        {{{mark.x + kAway, mark.y + kAway}, Anchor::start},
         {{mark.x - kAway, mark.y + kAway}, Anchor::end},
         {{mark.x + kAway, mark.y - kMark}, Anchor::start},
         {{mark.x - kAway, mark.y - kMark}, Anchor::end}}};
    for (const auto& [at, anchor] : tries) {
        Text text = text_at(at, kNameSize, anchor, letter, "");
        if (std::none_of(drawing.texts.begin(), drawing.texts.end(),
                         [&](const Text& other) { return other.box.meets(text.box); }))
            return text;
    }
    return text_at(mark, kNameSize, Anchor::middle, letter, "");
}

// Arrows that point at both ends from outside, and the figure beside them.
void dimension_inside(const Spot& from, const Spot& to, bool across, const std::string& figure,
                      int clip, Drawing& into) {
    constexpr double kTail = 3.5;
    arrows_inwards(from, to, across, kTail, clip, into);
    const Spot middle{(from.x + to.x) / 2.0, (from.y + to.y) / 2.0};
    const Text text =
        across ? text_at({middle.x + 2.2, middle.y + kFigureSize / 3.0}, kFigureSize, Anchor::start,
                         figure, "")
               : text_at({middle.x, middle.y - 3.0}, kFigureSize, Anchor::middle, figure, "");
    into.paths.push_back(on_paper(text.box, 0.4));
    into.texts.push_back(text);
}

}  // namespace

std::vector<Magnified> too_small(const Section& section, double paper_scale) {
    std::vector<Magnified> out;
    std::vector<std::size_t> order(section.dimensions.size());
    for (std::size_t i = 0; i < order.size(); ++i)
        order[i] = i;
    std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) {
        const SectionDimension& one = section.dimensions[a];
        const SectionDimension& other = section.dimensions[b];
        return std::pair{other.verdict, length_of(one)} < std::pair{one.verdict, length_of(other)};
    });
    for (const std::size_t i : order) {
        const SectionDimension& each = section.dimensions[i];
        const double shown = length_of(each) * paper_scale;
        if (each.kind == DimensionKind::stands_proud || shown >= kTooSmall || shown < kNothing ||
            out.size() >= kMostDetails)
            continue;
        const auto* const times = std::find_if(kTimes.begin(), kTimes.end(),
                                               [shown](double t) { return t * shown >= kWanted; });
        if (times != kTimes.end()) out.push_back({i, *times});
    }
    return out;
}

void draw_detail(const View& view, const Placement& place, const DetailAt& detail,
                 double page_scale, Drawing& into) {
    const Section& section = *view.section;
    const SectionDimension& what = section.dimensions[detail.what.dimension];
    const Point middle = middle_of(what);
    const Spot mark = place.at(middle);
    into.circles.push_back({.at = mark, .radius = kMark, .pen = Pen::detail});
    const Text letter = letter_at(mark, detail.letter, into);
    into.paths.push_back(on_paper(letter.box, 0.2));
    into.texts.push_back(letter);

    const Placement close{.scale = place.scale * detail.what.times,
                          .x0 = detail.at.x - place.scale * detail.what.times * middle.z,
                          .axis = detail.at.y + place.scale * detail.what.times * middle.r};
    const Box window{detail.at.x - kDetailRadius, detail.at.y - kDetailRadius,
                     detail.at.x + kDetailRadius, detail.at.y + kDetailRadius};
    const int clip = static_cast<int>(into.clips.size());
    into.clips.push_back({.at = detail.at, .radius = kDetailRadius});
    draw_metal(view, close, {.in_place = true, .window = &window, .clip = clip}, into);
    dimension_inside(close.at(what.from), close.at(what.to), what.across,
                     view.words.figures[detail.what.dimension], clip, into);
    into.circles.push_back({.at = detail.at, .radius = kDetailRadius, .pen = Pen::detail});
    into.texts.push_back(text_at({detail.at.x, detail.at.y + kDetailRadius + 4.2}, kFigureSize,
                                 Anchor::middle, detail.letter + " ",
                                 detail.words + scale_words(page_scale * detail.what.times)));
}

}  // namespace trialfit::draw
