// SPDX-License-Identifier: MIT
#include <algorithm>
#include <cmath>
#include <cstddef>
#include <trialfit/draw/page/view.hpp>
#include <trialfit/quantity/units.hpp>
#include <utility>

namespace trialfit::draw {

namespace {

constexpr std::size_t kFieldsAcross = 3;  // fields side by side
constexpr std::size_t kFieldsDown = 2;
constexpr std::size_t kMostWindows = kFieldsAcross * kFieldsDown - 1;
constexpr std::size_t kMostLeadIns = 2;
constexpr double kLarge = 8.0;     // mm on paper that a detail's distance is wanted to have
constexpr double kSmall = 2.5;     // less, at the section's own scale, is too little to see
constexpr double kCaption = 12.0;  // below a window

struct Window {
    Point middle;
    double scale = 1.0;
    Words words;
    std::string figure;
    std::optional<DetailSpan> span{};
};

Point zone_centre(const std::vector<Loop>& zone) {
    Point low = zone.front().front();
    Point high = low;
    for (const Loop& loop : zone)
        for (const Point& p : loop) {
            low = {std::min(low.z, p.z), std::min(low.r, p.r)};
            high = {std::max(high.z, p.z), std::max(high.r, p.r)};
        }
    return {(low.z + high.z) / 2.0, (low.r + high.r) / 2.0};
}

class Windows {
public:
    Windows(const View& view, double page_scale)
        : section_(*view.section), words_(view.words), page_scale_(page_scale) {}

    [[nodiscard]] std::vector<Window> take() {
        jams();
        cones();
        gaps();
        lead_ins();
        if (out_.size() > kMostWindows) out_.resize(kMostWindows);
        return std::move(out_);
    }

private:
    void jams() {
        for (std::size_t f = 0; f < section_.fouls.size(); ++f) {
            const Foul& foul = section_.fouls[f];
            const auto scale = detail_scale(foul.depth, kLarge, section_.units);
            if (!foul.zone.empty() && scale)
                out_.push_back({zone_centre(foul.zone), *scale, words_.fouls[f], ""});
        }
    }
    void cones() {
        for (std::size_t d = 0; d < section_.dimensions.size(); ++d)
            if (section_.dimensions[d].kind == DimensionKind::open_cone) add_dimension(d);
        constexpr double kBearing = 0.8;  // mm: shown ten times as large
        for (std::size_t b = 0; b < section_.bearings.size(); ++b)
            if (const auto scale = detail_scale(kBearing, kLarge, quantity::Unit::mm))
                out_.push_back({section_.bearings[b].at, *scale * quantity::mm_per(section_.units),
                                words_.bearings[b], ""});
    }
    void gaps() {
        std::vector<std::size_t> order;
        for (std::size_t d = 0; d < section_.dimensions.size(); ++d) {
            const SectionDimension& each = section_.dimensions[d];
            const double length = std::hypot(each.to.z - each.from.z, each.to.r - each.from.r);
            const bool shown = each.kind == DimensionKind::stands_proud ||
                               each.kind == DimensionKind::open_cone || each.value < 0.0 ||
                               length * page_scale_ >= kSmall;
            if (!shown) order.push_back(d);
        }
        std::ranges::stable_sort(order, [this](std::size_t a, std::size_t b) {
            return section_.dimensions[a].verdict > section_.dimensions[b].verdict;
        });
        for (const std::size_t d : order)
            add_dimension(d);
    }
    void lead_ins() {
        for (std::size_t i = 0; i < std::min(kMostLeadIns, section_.lead_ins.size()); ++i) {
            const LeadInDrawn& each = section_.lead_ins[i];
            const double length = std::abs(each.end.z - each.whole.z);
            if (const auto scale = detail_scale(length, kLarge, section_.units))
                out_.push_back({{(each.whole.z + each.end.z) / 2.0, each.whole.r},
                                *scale,
                                words_.lead_ins[i],
                                "",
                                DetailSpan{each.whole, each.end, false}});
        }
    }
    void add_dimension(std::size_t d) {
        const SectionDimension& each = section_.dimensions[d];
        const double length = std::hypot(each.to.z - each.from.z, each.to.r - each.from.r);
        const auto scale = detail_scale(length, kLarge, section_.units);
        constexpr double kNothing = 1e-9;
        if (!scale || length < kNothing) return;
        out_.push_back({{(each.from.z + each.to.z) / 2.0, (each.from.r + each.to.r) / 2.0},
                        *scale,
                        words_.dimensions[d],
                        "",
                        DetailSpan{each.from, each.to, each.across}});
    }

    const Section& section_;
    const SectionWords& words_;
    double page_scale_;
    std::vector<Window> out_;
};

// The largest scale of ISO 5455 at which the section goes into a field.
double locator_scale(const Section& section, double width, double height) {
    const double mm = quantity::mm_per(section.units);
    const double fills = std::min(width / std::max(section.z_max - section.z_min, 1e-9),
                                  height / std::max(section.r_max, 1e-9));
    const double power = std::pow(10.0, std::floor(std::log10(fills / mm)));
    for (const double step : {5.0, 2.0})
        if (step * power * mm <= fills) return step * power * mm;
    return power * mm;
}

void caption(const Window& window, const Box& field, double y, Drawing& into) {
    const double width = field.x1 - field.x0 - 2.0;
    const auto line = [&](const std::string& strong, const std::string& rest, double base) {
        Text text = fitted_text({0.0, base}, kFigureSize, strong, rest, width);
        const double wide = text.box.x1 - text.box.x0;
        into.texts.push_back(fitted_text({(field.x0 + field.x1 - wide) / 2.0, base}, kFigureSize,
                                         strong, rest, width));
    };
    line(window.words.strong, window.words.rest, y);
    if (!window.words.below.empty()) line("", window.words.below, y + kFigureSize + 0.9);
}

}  // namespace

std::optional<Drawing> detail_page(View view, const PageWords& words, const PageSize& page) {
    view.hatching = hatches({view});
    const Section& section = *view.section;
    Drawing into{.width = page.width, .height = page.height};
    const double width = page.width - 2.0 * kMargin;
    const double top =
        draw_head(words.title, words.lines, kMargin, kMargin + width, kMargin, into) + 3.0;
    const double cell = width / static_cast<double>(kFieldsAcross);
    const double room = cell - 10.0;
    Drawing trial;
    const double foot = draw_foot({view}, words, page, 1.0, 0.0, trial) + kMargin;
    const double high = (page.height - foot - top) / static_cast<double>(kFieldsDown);
    constexpr double kAxisLine = 6.0;
    const double scale = locator_scale(section, room, high - 3.0 * kAxisLine);
    into.scale = scale / quantity::mm_per(section.units);
    const std::vector<Window> windows = Windows(view, scale).take();
    if (windows.empty()) return std::nullopt;

    Placement place{.scale = scale};
    place.x0 = kMargin + cell / 2.0 - scale * (section.z_min + section.z_max) / 2.0;
    place.axis = top + (high + scale * section.r_max) / 2.0;
    draw_metal(view, place, {}, into);
    const double z0 = place.at({section.z_min, 0.0}).x - 3.0;
    const double z1 = place.at({section.z_max, 0.0}).x + 3.0;
    into.paths.push_back({.pen = Pen::axis, .runs = {{{z0, place.axis}, {z1, place.axis}}}});
    const double radius = std::min(cell / 2.0 - 4.0, (high - kCaption - 3.0) / 2.0);
    for (std::size_t i = 0; i < windows.size(); ++i) {
        const std::size_t row = (i + 1) / kFieldsAcross;
        const double left = kMargin + cell * static_cast<double>((i + 1) % kFieldsAcross);
        const double above = top + high * static_cast<double>(row);
        const Box field{left, above, left + cell, above + high};
        const Spot middle{left + cell / 2.0, above + radius + 1.0};
        draw_detail(view, place,
                    {.middle = windows[i].middle,
                     .scale = windows[i].scale,
                     .at = middle,
                     .radius = radius,
                     .letter = detail_letter(i),
                     .words = words.detail,
                     .figure = windows[i].figure,
                     .span = windows[i].span},
                    into);
        caption(windows[i], field, middle.y + radius + 8.0, into);
    }
    static_cast<void>(draw_foot({view}, words, page, into.scale, page.height - foot, into));
    return into;
}

}  // namespace trialfit::draw
