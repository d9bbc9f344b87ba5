// SPDX-License-Identifier: MIT
#include <fmt/format.h>
#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <trialfit/draw/page/view.hpp>
#include <trialfit/quantity/characters.hpp>
#include <trialfit/quantity/units.hpp>
#include <utility>

namespace trialfit::draw {

namespace {

constexpr double kMargin = 10.0;  // that any printer leaves white
constexpr double kTitleSize = 5.0;
constexpr double kLineHeight = 4.4;
constexpr double kColumnGap = 5.0;  // between metal and the names beside it
constexpr double kAxisBeyond = 4.0;
constexpr double kBelowAxis = 5.0;

struct Fitted {
    Drawing drawing;
    double needed_width = 0.0;
    double needed_height = 0.0;
    bool fits = false;
};

// The view's part of the page while it is put together.
struct Column {
    double left = 0.0;
    double right = 0.0;
};

double foot_height(const PageWords& words, bool framed) {
    return framed ? kLineHeight * static_cast<double>(words.foot.size()) + 9.0 : 0.0;
}

void head(const PageWords& words, const Column& column, double& y, Drawing& into) {
    y += kTitleSize;
    const double size =
        std::min(kTitleSize, kTitleSize * (column.right - column.left) /
                                 std::max(1.0, text_width(words.title, kTitleSize, true)));
    into.texts.push_back(text_at({column.left, y}, size, Anchor::start, words.title, ""));
    y += 2.0;
    for (const std::string& line : words.lines) {
        y += kLineHeight;
        into.texts.push_back(text_at({column.left, y}, kNameSize + 0.2, Anchor::start, "", line));
    }
    y += 3.0;
}

void put_heading(const SectionWords& words, const Column& column, double& y, Drawing& into) {
    if (words.heading.empty()) return;
    constexpr double kSize = kNameSize + 0.4;
    std::string strong = words.heading;
    for (const std::string& line : words.heading_lines) {
        y += kLineHeight;
        into.texts.push_back(text_at({column.left, y}, kSize, Anchor::start, strong,
                                     strong.empty() ? line : " " + line));
        strong.clear();
    }
    y += 2.0;
}

constexpr double kDetailStep = 2.0 * kDetailRadius + 12.0;  // side by side
constexpr double kDetailWidth = 2.0 * kDetailRadius + 8.0;  // one above another, beside the view

struct Details {
    const View& view;
    const std::vector<Magnified>& small;
    const Placement& place;
    double page_scale = 1.0;
    const std::string& words;
};

// From the left edge of `where` on, or down along it. Returns the y below which all is free.
double put_details(const Details& what, const Column& where, double top, bool down, int& letter,
                   Drawing& into) {
    Spot at{where.left + (down ? kDetailWidth : kDetailStep) / 2.0, top + kDetailRadius + 1.0};
    for (const Magnified& each : what.small) {
        draw_detail(what.view, what.place,
                    {.what = each,
                     .at = at,
                     .letter = std::string(1, static_cast<char>('A' + letter++)),
                     .words = what.words},
                    what.page_scale, into);
        (down ? at.y : at.x) += down ? kDetailHeight + 2.0 : kDetailStep;
    }
    if (what.small.empty()) return top;
    return down ? at.y - kDetailRadius - 1.0 : top + kDetailHeight;
}

// One view below `y`, which then lies below it. The scale is of file units.
void put_view(const View& view, const Column& column, double scale, double page_scale, int& letter,
              const std::string& detail_words, double& y, Fitted& page) {
    const Section& section = *view.section;
    Drawing& into = page.drawing;
    std::vector<SideLabel> labels = side_labels(section, view.words);
    double left = 0.0;
    double right = 0.0;
    std::array<double, 2> high{};
    for (const SideLabel& label : labels) {
        double& width = label.right ? right : left;
        width = std::max(width, label.width);
        high.at(label.right ? 1 : 0) += height_of(label);
    }
    const double width = scale * (section.z_max - section.z_min);
    const double beside = left + right + 2.0 * kColumnGap + 2.0 * kAxisBeyond;
    page.needed_width = std::max(page.needed_width, width + beside);
    const std::vector<Magnified> small = too_small(section, scale);
    double spare = std::max(0.0, column.right - column.left - width - beside);
    const bool room = !small.empty() && spare >= kDetailWidth;
    if (room) spare -= kDetailWidth;
    Placement place{.scale = scale};
    place.x0 = column.left + left + kColumnGap + kAxisBeyond + spare / 2.0 - scale * section.z_min;

    put_heading(view.words, column, y, into);
    // Rows first with the section's top at 0, to learn how high they go.
    const double height = scale * section.r_max;
    place.axis = height;
    const Box within{column.left, 0.0, column.right, 0.0};
    Drawing trial;
    const double rows = -draw_dimensions(section, view.words, place, within, -2.0, trial);
    place.axis = y + rows + height;
    const double top = place.axis - height;

    draw_metal(view, place, {}, into);
    const double z0 = place.at({section.z_min, 0.0}).x;
    const double z1 = place.at({section.z_max, 0.0}).x;
    into.paths.push_back(
        {.pen = Pen::axis,
         .runs = {{{z0 - kAxisBeyond, place.axis}, {z1 + kAxisBeyond, place.axis}}}});
    draw_across(section, place, into);
    static_cast<void>(draw_dimensions(section, view.words, place, within, top - 2.0, into));
    const double lines = std::max(high[0], high[1]);
    const double bottom = std::max(place.axis + kBelowAxis - 1.0, top + lines);
    spread(labels, place, top + kNameSize, bottom);
    draw_labels(labels, place, z0 - kAxisBeyond - kColumnGap, z1 + kAxisBeyond + kColumnGap, into);
    y = put_details(
        {view, small, place, page_scale, detail_words},
        room ? Column{column.right - kDetailWidth, column.right}
             : Column{std::max(column.left,
                               (z0 + z1 - kDetailStep * static_cast<double>(small.size())) / 2.0),
                      column.right},
        room ? top : bottom + 2.0, room, letter, into);
    y = std::max(y, bottom + 2.0);
}

// A bar to hold a rule against: a round length of at most 60 mm on paper. Returns its right end.
double scale_bar(double scale, quantity::Unit units, const Spot& at, Drawing& into) {
    const double per_unit = scale * quantity::mm_per(units);
    const double most = 60.0 / per_unit;
    double length = std::pow(10.0, std::floor(std::log10(most)));
    for (const double times : {5.0, 2.0}) {
        if (length * times > most) continue;
        length *= times;
        break;
    }
    const double x1 = at.x + length * per_unit;
    const double half = (at.x + x1) / 2.0;
    into.paths.push_back({.pen = Pen::dimension,
                          .fill = Fill::black,
                          .closed = true,
                          .runs = {{at, {half, at.y}, {half, at.y + 1.2}, {at.x, at.y + 1.2}}}});
    into.paths.push_back(
        {.pen = Pen::dimension,
         .fill = Fill::paper,
         .closed = true,
         .runs = {{{half, at.y}, {x1, at.y}, {x1, at.y + 1.2}, {half, at.y + 1.2}}}});
    const std::string figure = quantity::six_digits(length);
    into.texts.push_back(text_at(
        {x1 + 1.5, at.y + 1.5}, kFigureSize, Anchor::start, "",
        figure + " " + std::string(quantity::name(units)) + ", scale " + scale_words(scale)));
    return into.texts.back().box.x1;
}

// What the lines mean, from the right edge inwards; only what is there. Returns the left end.
double key(const std::vector<View>& views, const PageWords& words, const Spot& right,
           Drawing& into) {
    bool ghosts = false;
    bool fouls = false;
    bool shims = false;
    bool removals = false;
    bool presumed = false;
    bool unsure = false;
    for (const View& view : views) {
        for (const PartShape& part : view.section->parts) {
            ghosts = ghosts || !part.in_place.empty();
            presumed = presumed || !part.presumed.empty();
            unsure = unsure || !part.unsure.empty();
        }
        fouls = fouls || !view.section->fouls.empty();
        shims = shims || !view.section->shims.empty();
        removals = removals || !view.section->removals.empty();
    }
    double x = right.x;
    const auto sample = [&](const std::string& text, auto&& draw) {
        const double start = x - text_width(text, kFigureSize);
        into.texts.push_back(text_at({start, right.y + 1.5}, kFigureSize, Anchor::start, "", text));
        const Box box{start - 9.5, right.y - 1.2, start - 1.5, right.y + 1.4};
        draw(std::vector<std::vector<Spot>>{
            {{box.x0, box.y0}, {box.x1, box.y0}, {box.x1, box.y1}, {box.x0, box.y1}}});
        x = box.x0 - 4.0;
    };
    if (fouls)
        sample(words.fouls, [&](const auto& box) {
            for (const double angle : {45.0, 135.0})
                into.paths.push_back({.pen = Pen::foul_hatch,
                                      .runs = hatched(box, {.degrees = angle, .pitch = 1.1})});
            into.paths.push_back({.pen = Pen::foul, .closed = true, .runs = box});
        });
    if (removals)
        sample(words.removals, [&](const auto& box) {
            into.paths.push_back(
                {.pen = Pen::foul_hatch, .runs = hatched(box, {.degrees = 90.0, .pitch = 0.9})});
            into.paths.push_back({.pen = Pen::removal, .closed = true, .runs = box});
        });
    if (ghosts)
        sample(words.in_place, [&](const auto& box) {
            into.paths.push_back({.pen = Pen::ghost, .closed = true, .runs = box});
        });
    if (presumed)
        sample(words.presumed, [&](const auto& box) {
            const double middle = (box[0][0].y + box[0][2].y) / 2.0;
            into.paths.push_back(
                {.pen = Pen::presumed, .runs = {{{box[0][0].x, middle}, {box[0][1].x, middle}}}});
        });
    if (unsure)
        sample(words.unsure, [&](const auto& box) {
            into.paths.push_back({.pen = Pen::unsure, .closed = true, .runs = box});
        });
    if (shims)
        sample(words.shims, [&](const auto& box) {
            into.paths.push_back(
                {.pen = Pen::outline, .fill = Fill::black, .closed = true, .runs = box});
        });
    return x;
}

// Whether scale and key go on one line.
bool side_by_side(const std::vector<View>& views, const PageWords& words, const Column& column,
                  double scale) {
    Drawing trial;
    constexpr double kApart = 6.0;
    return scale_bar(scale, views.front().section->units, {column.left, 0.0}, trial) + kApart <
           key(views, words, {column.right, 0.0}, trial);
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
    if (page.framed) head(words, column, y, into);
    int letter = 0;
    for (const View& view : views) {
        y += spare;
        put_view(view, column, scale * quantity::mm_per(view.section->units), scale, letter,
                 words.detail, y, out);
    }
    const bool one_line = side_by_side(views, words, column, scale);
    const double key_line = one_line ? 6.0 : 11.0;
    const double foot = foot_height(words, page.framed);
    out.needed_height = y + key_line + foot + margin;
    out.needed_width += 2.0 * margin;
    if (!page.framed) into.height = out.needed_height;
    y = into.height - margin - foot - 2.0;
    scale_bar(scale, views.front().section->units, {column.left, y}, into);
    key(views, words, {column.right, one_line ? y : y - 5.0}, into);
    y += 4.0;
    for (std::size_t i = 0; page.framed && i < words.foot.size(); ++i) {
        y += kLineHeight;
        into.texts.push_back(
            text_at({column.left, y}, kFigureSize, Anchor::start, "", words.foot[i]));
    }
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
    TooLarge least;
    constexpr std::array kSteps{5.0, 4.0, 3.0, 2.5, 2.0, 1.5, 1.25, 1.0};
    constexpr int kLargest = 4;
    constexpr int kSmallest = -7;
    constexpr double kHopeless = 10.0;  // of the page's height
    // A scale that takes up more than the page whatever its labels is passed over unseen.
    double widest = 0.0;
    double high = 0.0;
    for (const View& view : views) {
        const double mm = quantity::mm_per(view.section->units);
        widest = std::max(widest, mm * (view.section->z_max - view.section->z_min));
        high += mm * view.section->r_max;
    }
    for (int power = kLargest; power >= kSmallest; --power) {
        for (const double step : kSteps) {
            const double tried = step * std::pow(10.0, power);
            if (tried * widest > page.width || tried * high > page.height) continue;
            Fitted fitted = attempt(views, words, page, tried, 0.0);
            if (fitted.fits) return settled(std::move(fitted), views, words, page);
            least = {fitted.needed_width, fitted.needed_height};
            // Names take no less height at a smaller scale.
            if (fitted.needed_height > kHopeless * page.height) return least;
        }
    }
    return least;
}

}  // namespace trialfit::draw
