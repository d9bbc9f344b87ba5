// SPDX-License-Identifier: MIT
#include <algorithm>
#include <cmath>
#include <cstddef>
#include <trialfit/draw/page/view.hpp>
#include <trialfit/quantity/characters.hpp>
#include <trialfit/quantity/units.hpp>

namespace trialfit::draw {

namespace {

using Runs = std::vector<std::vector<Spot>>;

constexpr double kBlockWidth = 180.0;  // ISO 7200
constexpr double kBesideBlock = 70.0;  // width that lines beside the block need at least
constexpr double kBlockGap = 6.0;
constexpr double kFieldName = 1.9;  // font sizes
constexpr double kFieldSize = 2.6;
constexpr double kFieldLine = 3.3;
constexpr double kFieldPad = 0.8;
constexpr double kFootSize = 2.4;
constexpr double kFootLine = 3.5;
constexpr double kKeyLine = 5.0;

Runs rectangle(const Box& box) {
    return {{{box.x0, box.y0}, {box.x1, box.y0}, {box.x1, box.y1}, {box.x0, box.y1}}};
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
    into.paths.push_back(
        filled_path(Fill::black, rectangle({at.x, at.y, half, at.y + 1.2}), Pen::dimension));
    into.paths.push_back(
        filled_path(Fill::paper, rectangle({half, at.y, x1, at.y + 1.2}), Pen::dimension));
    const std::string figure = quantity::six_digits(length);
    into.texts.push_back(text_at(
        {x1 + 1.5, at.y + 1.5}, kFigureSize, Anchor::start, "",
        figure + " " + std::string(quantity::name(units)) + ", scale " + scale_words(scale)));
    return into.texts.back().box.x1;
}

// What views hold that the key explains.
struct Shown {
    bool turning = false;
    bool still = false;
    bool ghosts = false;
    bool fouls = false;
    bool shims = false;
    bool keys = false;
    bool removals = false;
    bool presumed = false;
    bool unsure = false;
};

Shown shown_in(const std::vector<View>& views) {
    Shown out;
    for (const View& view : views) {
        for (const PartShape& part : view.section->parts) {
            const bool any = !part.pieces.empty();
            out.turning = out.turning || (any && part.turns);
            out.still = out.still || (any && !part.turns);
            out.ghosts = out.ghosts || !part.in_place.empty();
            out.presumed = out.presumed || !part.presumed.empty();
            out.unsure = out.unsure || !part.unsure.empty();
        }
        for (const ShimsDrawn& shims : view.section->shims)
            out.shims = out.shims || !shims.zone.empty();
        for (const KeyDrawn& each : view.section->keys)
            out.keys = out.keys || !each.slot.empty();
        out.fouls = out.fouls || !view.section->fouls.empty();
        out.removals = out.removals || !view.section->removals.empty();
    }
    return out;
}

// Samples of lines and tints with their words, one behind the other, line by line.
class Key {
public:
    Key(const Spot& from, double left, double right, Drawing& into)
        : at_(from), left_(left), right_(right), into_(into) {}

    // Room for one more: the box of its sample.
    Box next(const std::string& words) {
        constexpr double kWide = 8.0;
        const double width = kWide + 1.5 + text_width(words, kFigureSize);
        if (at_.x + width > right_ && at_.x > left_) at_ = {left_, at_.y + kKeyLine};
        const Box box{at_.x, at_.y - 0.9, at_.x + kWide, at_.y + 1.9};
        into_.texts.push_back(
            text_at({box.x1 + 1.5, at_.y + 1.5}, kFigureSize, Anchor::start, "", words));
        at_.x += width + 5.0;
        return box;
    }
    void metal(const std::string& words, bool turns) {
        const Runs box = rectangle(next(words));
        into_.paths.push_back(filled_path(turns ? Fill::turning : Fill::still, box));
        into_.paths.push_back(
            {.pen = Pen::hatch,
             .runs = hatched(box, {.degrees = turns ? 45.0 : 135.0, .pitch = 1.6})});
        into_.paths.push_back(
            {.pen = turns ? Pen::outline_turning : Pen::outline, .closed = true, .runs = box});
    }
    void crossed(const std::string& words) {
        const Runs box = rectangle(next(words));
        into_.paths.push_back(filled_path(Fill::foul, box));
        for (const double angle : {45.0, 135.0})
            into_.paths.push_back(
                {.pen = Pen::foul_hatch, .runs = hatched(box, {.degrees = angle, .pitch = 1.1})});
        into_.paths.push_back({.pen = Pen::foul, .closed = true, .runs = box});
    }
    void removed(const std::string& words) {
        const Runs box = rectangle(next(words));
        into_.paths.push_back(
            {.pen = Pen::foul_hatch, .runs = hatched(box, {.degrees = 90.0, .pitch = 0.9})});
        into_.paths.push_back({.pen = Pen::removal, .closed = true, .runs = box});
    }
    void dashed(const std::string& words, Pen pen) {
        into_.paths.push_back({.pen = pen, .closed = true, .runs = rectangle(next(words))});
    }
    void dotted(const std::string& words) {
        const Box box = next(words);
        const double middle = (box.y0 + box.y1) / 2.0;
        into_.paths.push_back(
            {.pen = Pen::presumed, .runs = {{{box.x0, middle}, {box.x1, middle}}}});
    }
    void black(const std::string& words) {
        into_.paths.push_back(filled_path(Fill::black, rectangle(next(words)), Pen::outline));
    }
    [[nodiscard]] double end() const { return at_.y + kKeyLine; }

private:
    Spot at_;
    double left_;
    double right_;
    Drawing& into_;
};

// Only what is there. Returns the y below it.
double draw_key(const Shown& shown, const PageWords& words, Key key) {
    if (shown.turning && !words.turning.empty()) key.metal(words.turning, true);
    if (shown.still && !words.still.empty()) key.metal(words.still, false);
    if (shown.shims) key.black(words.shims);
    if (shown.keys) key.dashed(words.keys, Pen::unsure);
    if (shown.unsure) key.dashed(words.unsure, Pen::unsure);
    if (shown.presumed) key.dotted(words.presumed);
    if (shown.ghosts) key.dashed(words.in_place, Pen::ghost);
    if (shown.removals) key.removed(words.removals);
    if (shown.fouls) key.crossed(words.fouls);
    return key.end();
}

double height_of(const std::vector<BlockField>& row) {
    std::size_t lines = 1;
    for (const BlockField& field : row)
        lines = std::max(lines, field.lines.size());
    return kFieldName + 1.8 * kFieldPad + kFieldLine * static_cast<double>(lines);
}

void draw_field(const BlockField& field, const Box& box, double scale, Drawing& into) {
    into.paths.push_back({.pen = Pen::dimension, .closed = true, .runs = rectangle(box)});
    const double x = box.x0 + kFieldPad;
    const double width = box.x1 - box.x0 - 2.0 * kFieldPad;
    double y = box.y0 + kFieldName + 0.4;
    into.texts.push_back(fitted_text({x, y}, kFieldName, "", field.name, width));
    const std::vector<std::string> lines =
        field.scale ? std::vector{scale_words(scale)} : field.lines;
    for (const std::string& line : lines) {
        y += kFieldLine;
        into.texts.push_back(fitted_text({x, y}, kFieldSize, field.strong ? line : "",
                                         field.strong ? "" : line, width));
    }
}

}  // namespace

Text fitted_text(const Spot& at, double size, const std::string& strong, const std::string& words,
                 double width) {
    const double taken = text_width(strong, size, true) + text_width(words, size);
    return text_at(at, taken > width ? size * width / taken : size, Anchor::start, strong, words);
}

double foot_width(const PageSize& page) {
    const double width = page.width - 2.0 * kMargin;
    const double beside = width - kBlockWidth - kBlockGap;
    return beside >= kBesideBlock ? beside : width;
}

double draw_metal_key(const std::string& turning, const std::string& still, const Spot& from,
                      double right, Drawing& into) {
    Key key(from, from.x, right, into);
    key.metal(turning, true);
    key.metal(still, false);
    return key.end();
}

double draw_block(const TitleBlock& block, double scale, double right, double top, Drawing& into) {
    double y = top;
    for (const std::vector<BlockField>& row : block.rows) {
        double x = right - kBlockWidth;
        const double foot = y + height_of(row);
        for (const BlockField& field : row) {
            draw_field(field, {x, y, x + field.width, foot}, scale, into);
            x += field.width;
        }
        y = foot;
    }
    if (!block.rows.empty())
        into.paths.push_back({.pen = Pen::frame,
                              .closed = true,
                              .runs = rectangle({right - kBlockWidth, top, right, y})});
    return y;
}

double draw_foot(const std::vector<View>& views, const PageWords& words, const PageSize& page,
                 double scale, double top, Drawing& into) {
    const double margin = page.framed ? kMargin : 1.0;
    const double right = page.width - margin;
    const double y = top + 2.0;
    const double bar = scale_bar(scale, views.front().section->units, {margin, y}, into);
    double foot = draw_key(shown_in(views), words, Key({bar + 8.0, y}, margin, right, into));
    if (!page.framed) return foot;
    const double width = foot_width(page);
    double line = foot - 0.5;
    for (const std::string& each : words.foot) {
        line += kFootLine;
        into.texts.push_back(fitted_text({margin, line}, kFootSize, "", each, width));
    }
    line += 1.0;
    const bool beside = width < right - margin;
    return std::max(line, draw_block(words.block, scale, right, beside ? foot : line, into));
}

}  // namespace trialfit::draw
