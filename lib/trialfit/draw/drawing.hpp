// SPDX-License-Identifier: MIT
#pragma once

#include <cstddef>
#include <string>
#include <utility>
#include <vector>

// A drawing on paper: what goes where, in millimetres from the top left corner, y down. Plain data,
// for a printer that only writes it down.
namespace trialfit::draw {

struct Spot {
    double x = 0.0;
    double y = 0.0;
};

struct Box {
    double x0 = 0.0;
    double y0 = 0.0;
    double x1 = 0.0;
    double y1 = 0.0;

    [[nodiscard]] bool meets(const Box& other) const {
        return x0 < other.x1 && other.x0 < x1 && y0 < other.y1 && other.y0 < y1;
    }
    [[nodiscard]] bool holds(const Box& other) const {
        return x0 <= other.x0 && y0 <= other.y0 && x1 >= other.x1 && y1 >= other.y1;
    }
};

enum class Pen {
    none,
    outline,
    outline_turning,
    seam,
    hatch,
    thread,
    presumed,
    unsure,
    ghost,
    axis,
    dimension,
    leader,
    foul,
    foul_hatch,
    removal,
    detail,
    frame
};
/// `turning` and `still`: a faint tint, which nothing hangs on; `metal`: paper white, to cover what
/// lies behind.
enum class Fill { none, paper, turning, still, foul, black, removal };

/// Runs of straight lines drawn alike; as a filled region by the even-odd rule.
struct Path {
    Pen pen = Pen::outline;
    Fill fill = Fill::none;
    bool closed = false;
    std::vector<std::vector<Spot>> runs;
    int clip = -1;  ///< drawn only inside Drawing::clips[clip]
    /// Indices into Section::parts: of tinted metal the part that it is of, of a leader the parts
    /// that its words name.
    std::vector<std::size_t> parts{};
};

/// A region in one fill; `pen`: the line round it, `clip` as in Path.
[[nodiscard]] inline Path filled_path(Fill fill, std::vector<std::vector<Spot>> runs,
                                      Pen pen = Pen::none, int clip = -1) {
    return {.pen = pen, .fill = fill, .closed = true, .runs = std::move(runs), .clip = clip};
}

struct Circle {
    Spot at;
    double radius = 0.0;
    Pen pen = Pen::detail;
    Fill fill = Fill::none;
};

enum class Anchor { start, middle, end };

/// One line of text on its baseline.
struct Text {
    Spot at;
    double size = 3.0;  ///< of the font
    Anchor anchor = Anchor::start;
    std::string strong;  ///< set bold, before the rest
    std::string words;
    Box box;  ///< what it takes at most in any common sans-serif font
};

struct Drawing {
    double width = 0.0;
    double height = 0.0;
    /// Millimetres on paper for one in the engine.
    double scale = 1.0;
    /// In the order in which they are drawn; circles after them, texts last.
    std::vector<Path> paths;
    std::vector<Circle> clips;
    std::vector<Circle> circles;
    std::vector<Text> texts;
};

/// Width that `text` (UTF-8) takes at most at this font size: reckoned from the widest of the
/// common sans-serif fonts, so that no text of a generic font outgrows its box.
[[nodiscard]] double text_width(const std::string& text, double size, bool bold = false);

/// A line of text with its box.
[[nodiscard]] Text text_at(Spot at, double size, Anchor anchor, std::string strong,
                           std::string words);

/// Paper under a text, `pad` wider all round, so that no line runs through it.
[[nodiscard]] Path on_paper(const Box& box, double pad);

/// How a part is hatched: direction in degrees, distance of the lines, and whether every second
/// line is doubled.
struct Hatch {
    double degrees = 45.0;
    double pitch = 2.0;
    bool doubled = false;
};

/// Hatch lines inside closed runs (even-odd).
[[nodiscard]] std::vector<std::vector<Spot>> hatched(const std::vector<std::vector<Spot>>& region,
                                                     const Hatch& hatch);

/// `region` cut to a box, run by run.
[[nodiscard]] std::vector<std::vector<Spot>> clipped(const std::vector<std::vector<Spot>>& region,
                                                     const Box& to);

}  // namespace trialfit::draw
