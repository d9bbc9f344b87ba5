// SPDX-License-Identifier: MIT
#include <fmt/format.h>
#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <iterator>
#include <trialfit/draw/page/view.hpp>
#include <trialfit/quantity/characters.hpp>
#include <trialfit/quantity/units.hpp>
#include <utility>

namespace trialfit::draw {

namespace {

constexpr double kColumnGap = 5.0;  // between metal and the names beside it
constexpr double kAxisBeyond = 4.0;
constexpr double kBelowAxis = 5.0;

struct Fitted {
    Drawing drawing;
    double needed_width = 0.0;
    double needed_height = 0.0;
    double names_height = 0.0;  ///< of those beside a view that are there at every scale
    bool fits = false;
};

// Behind what is drawn already; clips are those of the page.
void add_to(Drawing& into, Drawing more) {
    into.clips = std::move(more.clips);
    std::move(more.paths.begin(), more.paths.end(), std::back_inserter(into.paths));
    std::move(more.circles.begin(), more.circles.end(), std::back_inserter(into.circles));
    std::move(more.texts.begin(), more.texts.end(), std::back_inserter(into.texts));
}

// The view's part of the page while it is put together.
struct Column {
    double left = 0.0;
    double right = 0.0;
};

void put_heading(const SectionWords& words, const Column& column, double& y, Drawing& into) {
    if (words.heading.empty()) return;
    constexpr double kSize = kNameSize + 0.2;
    std::string strong = words.heading;
    for (const std::string& line : words.heading_lines) {
        y += kLineHeight;
        into.texts.push_back(fitted_text({column.left, y}, kSize, strong,
                                         strong.empty() ? line : " " + line,
                                         column.right - column.left));
        strong.clear();
    }
    y += 1.0;
}

constexpr double kDetailStep = 2.0 * kDetailRadius + 12.0;  // side by side
constexpr double kDetailWidth = 2.0 * kDetailRadius + 8.0;  // one above another, beside the view

struct Details {
    const View& view;
    const std::vector<Magnified>& small;
    const Placement& place;
    const std::string& words;
};

// From the left edge of `where` on, or down along it. Returns the y below which all is free.
double put_details(const Details& what, const Column& where, double top, bool down,
                   std::size_t& letter, Drawing& into) {
    Spot at{where.left + (down ? kDetailWidth : kDetailStep) / 2.0, top + kDetailRadius + 1.0};
    for (const Magnified& each : what.small) {
        const SectionDimension& of = what.view.section->dimensions[each.dimension];
        draw_detail(what.view, what.place,
                    {.middle = {(of.from.z + of.to.z) / 2.0, (of.from.r + of.to.r) / 2.0},
                     .scale = each.scale,
                     .at = at,
                     .letter = detail_letter(letter++),
                     .words = what.words,
                     .figure = what.view.words.figures[each.dimension],
                     .span = DetailSpan{of.from, of.to, of.across}},
                    into);
        (down ? at.y : at.x) += down ? kDetailHeight + 2.0 : kDetailStep;
    }
    if (what.small.empty()) return top;
    return down ? at.y - kDetailRadius - 1.0 : top + kDetailHeight;
}

// Words at the ends of the axis, below it: side by side where there is room. Returns the y below.
double name_ends(const PageWords& words, double z0, double z1, double y, Drawing& into) {
    constexpr double kApart = 4.0;
    if (words.inboard.empty() && words.outboard.empty()) return y;
    const double base = y + kFigureSize;
    Text inboard = text_at({z0, base}, kFigureSize, Anchor::start, "", words.inboard);
    Text outboard = text_at({z1, base}, kFigureSize, Anchor::end, "", words.outboard);
    const bool one_line = inboard.box.x1 + kApart < outboard.box.x0;
    if (!one_line)
        outboard = text_at({z1, base + kRowHeight}, kFigureSize, Anchor::end, "", words.outboard);
    into.texts.push_back(std::move(inboard));
    into.texts.push_back(std::move(outboard));
    return base + (one_line ? 0.0 : kRowHeight) + 1.0;
}

// What found no room in the view, in lines below it. Returns the y below.
double list_below(const std::vector<Words>& listed, const Column& column, double y, Drawing& into) {
    double x = column.left;
    double line = y;
    for (const Words& each : listed) {
        Text text = fitted_text({x, line + kRowHeight}, kNameSize, each.strong, each.rest,
                                column.right - column.left);
        if (text.box.x1 > column.right) {
            x = column.left;
            line += kRowHeight;
            text = fitted_text({x, line + kRowHeight}, kNameSize, each.strong, each.rest,
                               column.right - column.left);
        }
        x = text.box.x1 + 5.0;
        into.texts.push_back(std::move(text));
    }
    return listed.empty() ? y : line + kRowHeight + 1.5;
}

// Room that the labels beside a view take.
struct Sides {
    double left = 0.0;
    double right = 0.0;
    double high = 0.0;
};

Sides sides_of(const std::vector<SideLabel>& labels) {
    Sides out;
    std::array<double, 2> high{};
    for (const SideLabel& label : labels) {
        if (label.inside) continue;
        double& width = label.right ? out.right : out.left;
        width = std::max(width, label.width);
        high.at(label.right ? 1 : 0) += draw::height_of(label);
    }
    out.high = std::max(high[0], high[1]);
    return out;
}

// One view below `y`, which then lies below it. The scale is of file units.
void put_view(const View& view, const Column& column, double scale, const PageWords& words,
              std::size_t& letter, double& y, Fitted& page) {
    const Section& section = *view.section;
    Drawing& into = page.drawing;
    std::vector<SideLabel> labels = side_labels(section, view.words, scale);
    const Sides sides = sides_of(labels);
    if (section.parts.size() > kMostNamedInside)
        page.names_height = std::max(page.names_height, sides.high);
    const double width = scale * (section.z_max - section.z_min);
    const double beside = sides.left + sides.right + 2.0 * kColumnGap + 2.0 * kAxisBeyond;
    page.needed_width = std::max(page.needed_width, width + beside);
    const std::vector<Magnified> small = too_small(section, scale);
    double spare = std::max(0.0, column.right - column.left - width - beside);
    const bool room = !small.empty() && spare >= kDetailWidth;
    if (room) spare -= kDetailWidth;
    Placement place{.scale = scale};
    place.x0 =
        column.left + sides.left + kColumnGap + kAxisBeyond + spare / 2.0 - scale * section.z_min;

    put_heading(view.words, column, y, into);
    // Rows first with the section's top at 0, to learn how high they go.
    const double height = scale * section.r_max;
    place.axis = height;
    const Box within{column.left, 0.0, column.right, 0.0};
    Drawing trial;
    const double rows = -draw_dimensions(section, view.words, place, within, -2.0, trial);
    place.axis = y + rows + height;
    const double top = place.axis - height;

    Drawing drawn{.width = into.width, .height = into.height, .clips = std::move(into.clips)};
    draw_metal(view, place, {}, drawn);
    const double z0 = place.at({section.z_min, 0.0}).x;
    const double z1 = place.at({section.z_max, 0.0}).x;
    drawn.paths.push_back(
        {.pen = Pen::axis,
         .runs = {{{z0 - kAxisBeyond, place.axis}, {z1 + kAxisBeyond, place.axis}}}});
    draw_across(section, place, drawn);
    static_cast<void>(draw_dimensions(section, view.words, place, within, top - 2.0, drawn));
    double bottom = std::max(place.axis + kBelowAxis - 1.0, top + sides.high);
    spread(labels, place, top + kNameSize, bottom);
    draw_labels(labels, place,
                {.left = z0 - kAxisBeyond - kColumnGap,
                 .right = z1 + kAxisBeyond + kColumnGap,
                 .metal_left = z0,
                 .metal_right = z1},
                drawn);
    const double ends =
        name_ends(words, z0 - kAxisBeyond, z1 + kAxisBeyond, place.axis + 1.8, drawn);
    // Of a view that does not go on the page anyway, labels in it would be work for nothing.
    const bool fits = std::max(bottom, ends) <= into.height && width + beside <= into.width;
    const Box inner{z0 - kAxisBeyond, top - 1.0, z1 + kAxisBeyond, place.axis - 0.5};
    const std::vector<Words> listed =
        fits ? put_inside(section, place, labels, inner, words.no_room, drawn)
             : std::vector<Words>();
    bottom = std::max(bottom, ends);
    bottom = list_below(listed, {column.left, column.right - (room ? kDetailWidth : 0.0)}, bottom,
                        drawn);
    y = put_details(
        {view, small, place, words.detail},
        room ? Column{column.right - kDetailWidth, column.right}
             : Column{std::max(column.left,
                               (z0 + z1 - kDetailStep * static_cast<double>(small.size())) / 2.0),
                      column.right},
        room ? top : bottom + 2.0, room, letter, drawn);
    y = std::max(y, bottom + 1.0);
    add_to(into, std::move(drawn));
}

// `spare`: height left white above each view.
Fitted attempt(const std::vector<View>& views, const PageWords& words, const PageSize& page,
               double scale, double spare) {
    Fitted out;
    Drawing& into = out.drawing;
    const double margin = page.framed ? kMargin : 1.0;
    const Column column{margin, page.width - margin};
    into.width = page.width;
    into.height = page.height;
    into.scale = scale;
    double y = margin;
    if (page.framed)
        y = draw_head(words.title, words.lines, column.left, column.right, y, into) + 1.0;
    std::size_t letter = 0;
    for (const View& view : views) {
        y += spare;
        put_view(view, column, scale * quantity::mm_per(view.section->units), words, letter, y,
                 out);
    }
    Drawing trial;
    const double foot = draw_foot(views, words, page, scale, 0.0, trial);
    out.needed_height = y + foot + margin;
    out.needed_width += 2.0 * margin;
    if (!page.framed) into.height = out.needed_height;
    static_cast<void>(draw_foot(views, words, page, scale, into.height - margin - foot, into));
    out.fits = out.needed_width <= page.width + 1e-6 && out.needed_height <= page.height + 1e-6;
    return out;
}

// Not all of the spare height at the foot of the page.
Drawing settled(Fitted fitted, const std::vector<View>& views, const PageWords& words,
                const PageSize& page) {
    const double spare = page.height - fitted.needed_height;
    constexpr double kWorthIt = 10.0;
    if (!page.framed || spare < kWorthIt) return std::move(fitted.drawing);
    const double share = 0.8 * spare / static_cast<double>(views.size() + 1);
    return attempt(views, words, page, fitted.drawing.scale, share).drawing;
}

// The largest scale that goes on the page.
std::variant<Drawing, TooLarge> largest(const std::vector<View>& views, const PageWords& words,
                                        const PageSize& page) {
    TooLarge least;
    constexpr std::array kIso{5.0, 2.0, 1.0};  // ISO 5455
    constexpr std::array kFine{5.0, 4.0, 3.0, 2.5, 2.0, 1.5, 1.25, 1.0};
    constexpr int kLargest = 4;
    constexpr int kSmallest = -7;
    constexpr double kHopeless = 10.0;  // of the page's height
    // Metal drawn smaller than this share of what the page could hold is a dot among its words.
    constexpr double kDot = 0.08;
    double widest = 0.0;
    double high = 0.0;
    for (const View& view : views) {
        const double mm = quantity::mm_per(view.section->units);
        widest = std::max(widest, mm * (view.section->z_max - view.section->z_min));
        high += mm * view.section->r_max;
    }
    const double fills =
        std::min(page.width / std::max(widest, 1e-9), page.height / std::max(high, 1e-9));
    for (int power = kLargest; power >= kSmallest; --power) {
        for (const double step : page.framed ? std::vector(kIso.begin(), kIso.end())
                                             : std::vector(kFine.begin(), kFine.end())) {
            const double tried = step * std::pow(10.0, power);
            if (tried > fills) continue;
            if (least.width > 0.0 && tried < kDot * fills) return least;
            Fitted fitted = attempt(views, words, page, tried, 0.0);
            if (fitted.fits) return settled(std::move(fitted), views, words, page);
            least = {fitted.needed_width, fitted.needed_height};
            // Names take no less height at a smaller scale.
            if (fitted.needed_height > kHopeless * page.height || fitted.names_height > page.height)
                return least;
        }
    }
    return least;
}

}  // namespace

std::string scale_words(double scale) {
    const auto number = [](double value) {
        return fmt::format("{}", std::round(value * 1000.0) / 1000.0);
    };
    return scale >= 1.0 ? number(scale) + ":1" : "1:" + number(1.0 / scale);
}

std::variant<Drawing, TooLarge> laid_out(std::vector<View> views, const PageWords& words,
                                         const PageSize& page, std::optional<double> scale) {
    const std::vector<Hatch> hatching = hatches(views);
    for (View& view : views)
        view.hatching = hatching;
    if (scale) {
        Fitted fitted = attempt(views, words, page, *scale, 0.0);
        if (!fitted.fits) return TooLarge{fitted.needed_width, fitted.needed_height};
        return settled(std::move(fitted), views, words, page);
    }
    return largest(views, words, page);
}

}  // namespace trialfit::draw
