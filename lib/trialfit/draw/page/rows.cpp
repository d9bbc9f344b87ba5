// SPDX-License-Identifier: MIT
#include <algorithm>
#include <cstddef>
#include <optional>
#include <trialfit/draw/page/view.hpp>
#include <utility>

namespace trialfit::draw {

namespace {

constexpr double kOutside = 4.0;  // line beyond arrows that point inwards from outside
constexpr double kRoomForArrows = 6.0;
constexpr double kPad = 1.6;
constexpr int kMostRows = 30;
constexpr double kDatumHeight = 1.8;  // of the triangle on a datum, ISO 5459
constexpr double kFrame = 4.0;        // height of a datum's frame

struct Upright {
    double x = 0.0;
    double top = 0.0;
    double foot = 0.0;
};

// What a line may run through, least first: nothing; another's line across; words, whose paper then
// covers it.
enum class Through { nothing, lines, words };

struct Taken {
    std::vector<Box> words;
    std::vector<Box> lines;
    std::vector<Upright> uprights;

    [[nodiscard]] static bool through(const Upright& line, const Box& box) {
        constexpr double kBeside = 0.05;  // lines that start at one face stand beside each other
        return line.x > box.x0 + kBeside && line.x < box.x1 - kBeside && line.top < box.y1 &&
               line.foot > box.y0;
    }
    [[nodiscard]] bool crosses(const Upright& line, Through may) const {
        const auto meets = [&line](const Box& box) { return through(line, box); };
        return (may < Through::words && std::ranges::any_of(words, meets)) ||
               (may < Through::lines && std::ranges::any_of(lines, meets));
    }
    [[nodiscard]] bool crossed(const Box& box) const {
        return std::ranges::any_of(uprights,
                                   [&box](const Upright& line) { return through(line, box); });
    }
    [[nodiscard]] bool covers(const Box& wanted) const {
        const auto meets = [&wanted](const Box& box) { return box.meets(wanted); };
        return std::ranges::any_of(words, meets) || std::ranges::any_of(lines, meets);
    }
};

// One dimension on its way to a row.
struct Laid {
    bool open = false;   // its distance is a gap, and not metal
    bool datum = false;  // no distance: a face, and its letter in a frame
    Spot from;
    Spot to;
    Words words;
    double width = 0.0;
    bool right = true;
    bool room_left = false;  // for its words
    bool room_right = false;
    bool apart = false;  // its words stand in a row of their own above the line

    [[nodiscard]] double low() const { return std::min(from.x, to.x); }
    [[nodiscard]] double high() const { return std::max(from.x, to.x); }
    [[nodiscard]] bool inside() const { return high() - low() >= kRoomForArrows; }
    [[nodiscard]] bool either() const { return room_left && room_right; }
    [[nodiscard]] double tail() const {
        if (datum) return kDatumHeight;
        return inside() ? 0.0 : kOutside;
    }
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

// From the sides inwards: a line further in goes up where the words further out have ended.
void from_the_sides(std::vector<Laid>& all) {
    std::ranges::stable_sort(all, [](const Laid& a, const Laid& b) {
        if (a.apart != b.apart) return b.apart;
        if (a.right != b.right) return a.right;
        return a.right ? a.low() > b.low() : a.high() < b.high();
    });
}

std::vector<Laid> to_lay(const Section& section, const SectionWords& words, const Placement& place,
                         const Box& within) {
    std::vector<Laid> out;
    const double middle = place.at({(section.z_min + section.z_max) / 2.0, 0.0}).x;
    const auto add = [&](Laid laid) {
        laid.width = text_width(laid.words.strong, kFigureSize, true) +
                     text_width(laid.words.rest, kFigureSize);
        laid.right = (laid.low() + laid.high()) / 2.0 >= middle;
        laid.room_right = laid.high() + laid.tail() + kPad + laid.width <= within.x1;
        laid.room_left = laid.low() - laid.tail() - kPad - laid.width >= within.x0;
        if (!(laid.right ? laid.room_right : laid.room_left)) laid.right = !laid.right;
        laid.apart = !laid.room_left && !laid.room_right;
        out.push_back(std::move(laid));
    };
    for (std::size_t d = 0; d < section.dimensions.size(); ++d) {
        const SectionDimension& each = section.dimensions[d];
        if (!each.across)
            add({.open = each.value > 0.0,
                 .from = place.at(each.from),
                 .to = place.at(each.to),
                 .words = words.dimensions[d]});
    }
    for (std::size_t f = 0; f < section.finishes.size() && f < words.finishes.size(); ++f)
        if (section.finishes[f].datum)
            add({.from = place.at(section.finishes[f].from),
                 .to = place.at(section.finishes[f].to),
                 .words = words.finishes[f]});
    for (std::size_t d = 0; d < section.datums.size(); ++d) {
        const Spot at = place.at(section.datums[d].at);
        add({.datum = true,
             .from = at,
             .to = at,
             .words = {.strong = datum_letter(d), .rest = ""}});
    }
    from_the_sides(out);
    return out;
}

// The triangle on the extension line of its face, and the frame that its letter stands in.
void draw_datum(const Laid& laid, double y, const Box& letter, Drawing& into) {
    const double x = laid.from.x;
    const double out = laid.right ? 1.0 : -1.0;
    into.paths.push_back({.pen = Pen::dimension, .runs = {{laid.from, {x, y - 1.4}}}});
    into.circles.push_back({.at = laid.from, .radius = 0.6, .pen = Pen::none, .fill = Fill::black});
    into.paths.push_back(
        filled_path(Fill::black, {{{x, y - 1.0}, {x, y + 1.0}, {x + out * kDatumHeight, y}}}));
    const double middle = (letter.x0 + letter.x1) / 2.0;
    const double half = std::max(kFrame, letter.x1 - letter.x0 + 1.0) / 2.0;
    into.paths.push_back(
        {.pen = Pen::dimension, .runs = {{{x + out * kDatumHeight, y}, {middle - out * half, y}}}});
    into.paths.push_back(filled_path(Fill::paper,
                                     {{{middle - half, y - kFrame / 2.0},
                                       {middle + half, y - kFrame / 2.0},
                                       {middle + half, y + kFrame / 2.0},
                                       {middle - half, y + kFrame / 2.0}}},
                                     Pen::frame));
}

void draw_line(const Laid& laid, double y, Drawing& into) {
    Path lines{.pen = Pen::dimension};
    for (const Spot& end : {laid.from, laid.to})
        lines.runs.push_back({{end.x, end.y}, {end.x, y - 1.2}});
    lines.runs.push_back({{laid.low() - laid.tail(), y}, {laid.high() + laid.tail(), y}});
    into.paths.push_back(std::move(lines));
    const double out = laid.inside() ? 1.0 : -1.0;
    into.paths.push_back(filled_path(
        Fill::black, {arrow_head({laid.low(), y}, out), arrow_head({laid.high(), y}, -out)}));
    // Where there is a gap, it is shown in place; where metal is, that says it.
    if (laid.open) into.paths.push_back({.pen = Pen::outline, .runs = {{laid.from, laid.to}}});
    for (const Spot& end : {laid.from, laid.to})
        into.circles.push_back({.at = end, .radius = 0.6, .pen = Pen::none, .fill = Fill::black});
}

// Every dimension that finds a row in this order; the first that does not, else the count.
struct Rows {
    std::vector<std::pair<Laid, double>> at;  // y of its line
    std::size_t stuck = 0;
};

Rows rows_in(const std::vector<Laid>& order, const Box& within, double base, Through may) {
    Rows out;
    Taken taken;
    const auto place = [&](const Laid& laid, double y) {
        const Box words = words_of(laid, within, y).box;
        const Box line{laid.low() - laid.tail(), y - 1.4, laid.high() + laid.tail(), y + 1.4};
        const Upright one{laid.low(), y - 1.2, std::max(laid.from.y, laid.to.y)};
        const Upright other{laid.high(), y - 1.2, one.foot};
        if (taken.covers(words) || taken.covers(line)) return false;
        if (may < Through::words && taken.crossed(words)) return false;
        if (may < Through::lines && taken.crossed(line)) return false;
        if (taken.crosses(one, may) || taken.crosses(other, may)) return false;
        taken.words.push_back(words);
        taken.lines.push_back(line);
        taken.uprights.insert(taken.uprights.end(), {one, other});
        out.at.emplace_back(laid, y);
        return true;
    };
    for (out.stuck = 0; out.stuck < order.size(); ++out.stuck) {
        Laid laid = order[out.stuck];
        bool placed = false;
        for (int row = 0; row < kMostRows && !placed; ++row) {
            const double y = base - kRowHeight * (row + 0.6);
            placed = place(laid, y);
            if (placed || !laid.either()) continue;
            laid.right = !laid.right;
            placed = place(laid, y);
            if (!placed) laid.right = !laid.right;
        }
        if (!placed) return out;
    }
    return out;
}

// What finds no row goes first, next to the metal, its words on the other side.
Rows rows_turned(std::vector<Laid>& order, const Box& within, double base, Through may) {
    Rows rows = rows_in(order, within, base, may);
    for (std::size_t turn = 0; rows.stuck < order.size() && turn < 3 * order.size(); ++turn) {
        const auto stuck = order.begin() + static_cast<std::ptrdiff_t>(rows.stuck);
        if (stuck->either()) stuck->right = !stuck->right;
        std::rotate(order.begin(), stuck, stuck + 1);
        rows = rows_in(order, within, base, may);
    }
    return rows;
}

// Words to the left of the first `split` lines from the left, to the right of the others: two
// flights of stairs, whose lines cross no words. Nothing where words have no room there.
std::optional<std::vector<Laid>> stairs(std::vector<Laid> all, std::size_t split) {
    std::ranges::stable_sort(
        all, [](const Laid& a, const Laid& b) { return a.low() + a.high() < b.low() + b.high(); });
    for (std::size_t i = 0; i < all.size(); ++i) {
        Laid& laid = all[i];
        if (laid.apart) continue;
        laid.right = i >= split;
        if (!(laid.right ? laid.room_right : laid.room_left)) return std::nullopt;
        (laid.right ? laid.room_left : laid.room_right) = false;
    }
    from_the_sides(all);
    return all;
}

Rows best_rows(const std::vector<Laid>& all, const Box& within, double base) {
    for (const Through may : {Through::nothing, Through::lines}) {
        std::vector<Laid> order = all;
        Rows rows = rows_turned(order, within, base, may);
        if (rows.stuck == all.size()) return rows;
        for (std::size_t split = 0; split <= all.size(); ++split) {
            const auto flights = stairs(all, split);
            if (!flights) continue;
            rows = rows_in(*flights, within, base, may);
            if (rows.stuck == all.size()) return rows;
        }
    }
    return rows_in(all, within, base, Through::words);
}

}  // namespace

std::string datum_letter(std::size_t index) {
    std::string out;
    out += static_cast<char>('A' + index % 26);
    return out;
}

double draw_dimensions(const Section& section, const SectionWords& words, const Placement& place,
                       const Box& within, double base, Drawing& into) {
    const Rows rows = best_rows(to_lay(section, words, place, within), within, base);
    double top = base;
    for (const auto& [laid, y] : rows.at)
        if (!laid.datum) draw_line(laid, y, into);
    for (const auto& [laid, y] : rows.at) {
        const Text text = words_of(laid, within, y);
        if (laid.datum) {
            draw_datum(laid, y, text.box, into);
        } else {
            into.paths.push_back(on_paper(text.box, 0.0));
        }
        into.texts.push_back(text);
        top = std::min({top, text.box.y0, y - 1.4});
    }
    return top - 1.0;
}

}  // namespace trialfit::draw
