// SPDX-License-Identifier: MIT
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <trialfit/draw/page/layout.hpp>
#include <trialfit/quantity/units.hpp>
#include <vector>

// The pieces that a page is put together from; laid_out() of layout.hpp is the way in.
namespace trialfit::draw {

/// Font sizes and distances, mm.
inline constexpr double kNameSize = 3.0;
inline constexpr double kFigureSize = 2.8;
inline constexpr double kRowHeight = 4.6;

/// Where a section lies on paper.
struct Placement {
    double scale = 1.0;  ///< millimetres on paper for one of the file's unit
    double x0 = 0.0;     ///< of axial position 0
    double axis = 0.0;   ///< y of the axis

    [[nodiscard]] Spot at(const Point& p) const { return {x0 + scale * p.z, axis - scale * p.r}; }
    [[nodiscard]] Point back(const Spot& s) const {
        return {(s.x - x0) / scale, (axis - s.y) / scale};
    }
    [[nodiscard]] std::vector<Spot> at(const Loop& loop) const;
    [[nodiscard]] std::vector<std::vector<Spot>> at(const std::vector<Loop>& loops) const;
};

/// How each part is hatched: turning parts one way and still ones the other, so that they are told
/// apart in black and white; unlike every part that comes near it in any view, and alike in all.
[[nodiscard]] std::vector<Hatch> hatches(const std::vector<View>& views);

/// What is drawn of the section itself, into `into`. `in_place`: every part where it should sit.
/// `window`: only what lies in it, behind `clip`.
struct Look {
    bool in_place = false;
    const Box* window = nullptr;
    int clip = -1;
};
void draw_metal(const View& view, const Placement& place, const Look& look, Drawing& into);

/// Arrows from outside at both ends of a distance, tails `tail` long: along the axis, or across it.
void arrows_inwards(const Spot& from, const Spot& to, bool across, double tail, int clip,
                    Drawing& into);
/// The head of a dimension's arrow along the axis; `towards`: where it comes from, -1 or 1.
[[nodiscard]] std::vector<Spot> arrow_head(const Spot& tip, double towards);
inline constexpr double kArrowHead = 2.2;  ///< its length, mm
/// Length of the tails on the view itself.
inline constexpr double kTailAcross = 4.0;
/// The dimensions across the axis; their words stand among the side labels.
void draw_across(const Section& section, const Placement& place, Drawing& into);

/// A label beside the view, its leader, and the point it names.
struct SideLabel {
    Words words;
    Point anchor;
    /// The points that its leader may end on.
    std::vector<Point> anchors{};
    /// What it names: indices into Section::parts.
    std::vector<std::size_t> parts{};
    bool right = true;
    /// The leader ends where the outer arrow's tail does, and without a dot.
    bool at_tail = false;
    bool names_part = false;  ///< it is the name of the one part of `parts`
    /// No level leader gets from it to a side but through parts that it does not name: it is set
    /// in the view, see put_inside().
    bool inside = false;
    double width = 0.0;
    double y = 0.0;  ///< of the baseline, once placed
};
/// Names, fouls, work, shims, keys and dimensions across, each on the side from which the fewest
/// other parts stand in the way. `scale`: millimetres on paper for one of the section's unit.
[[nodiscard]] std::vector<SideLabel> side_labels(const Section& section, const SectionWords& words,
                                                 double scale);
/// What it takes of its side's height.
[[nodiscard]] double height_of(const SideLabel& label);
/// Gives every label beside the view its height between `top` and `bottom`, as near its anchor as
/// may be; labels of one side keep their order and their distance.
void spread(std::vector<SideLabel>& labels, const Placement& place, double top, double bottom);

/// Where labels stand: x of their columns, and of the ends of all metal.
struct LabelColumns {
    double left = 0.0;
    double right = 0.0;
    double metal_left = 0.0;
    double metal_right = 0.0;
};
/// Those beside the view, with their leaders.
void draw_labels(const std::vector<SideLabel>& labels, const Placement& place,
                 const LabelColumns& at, Drawing& into);

/// Whether a straight line comes within `pad` of the part's metal.
[[nodiscard]] bool runs_through(const Line& way, const PartShape& part, double pad);

inline constexpr double kBalloon = 2.3;  ///< radius round a number, mm
/// A number in a ring, for what is explained elsewhere on the page.
void draw_balloon(const Spot& at, const std::string& number, Drawing& into);

/// Title and lines from `top` down, mm, within `left` and `right`. Returns the last baseline.
[[nodiscard]] double draw_head(const std::string& title, const std::vector<std::string>& lines,
                               double left, double right, double top, Drawing& into);

/// Sets the labels that are `inside` into the view, within a box: each where it covers no line of a
/// part and its leader crosses none but what it names. What finds no room gets a number in its
/// place. Returns what is to be listed under the view, each with its number, or with `no_room`
/// where that found no room either.
[[nodiscard]] std::vector<Words> put_inside(const Section& section, const Placement& place,
                                            const std::vector<SideLabel>& labels, const Box& within,
                                            const std::string& no_room, Drawing& into);

/// The dimensions along the axis, finish sizes and datums in rows above `base`, each with its words
/// beside it, nothing crossing a text. Returns the y above which all is free.
[[nodiscard]] double draw_dimensions(const Section& section, const SectionWords& words,
                                     const Placement& place, const Box& within, double base,
                                     Drawing& into);

/// A dimension too small to see at scale, and by how much its detail magnifies it.
struct Magnified {
    std::size_t dimension = 0;
    double scale = 1.0;  ///< of the detail: mm on paper for one of the section's unit
};
/// `view_scale`: mm on paper for one of the section's unit. The details' own scales are of ISO 5455
/// (1, 2, 5 times a power of ten, mm to mm).
[[nodiscard]] std::vector<Magnified> too_small(const Section& section, double view_scale);
inline constexpr double kDetailRadius = 14.0;
inline constexpr double kDetailHeight = 2.0 * kDetailRadius + 7.0;
/// A distance that a detail shows.
struct DetailSpan {
    Point from;
    Point to;
    bool across = false;
};
/// One detail centred at `at`, and its mark on the view.
struct DetailAt {
    Point middle;
    double scale = 1.0;  ///< mm on paper for one of the section's unit
    Spot at;
    double radius = kDetailRadius;
    std::string letter;
    /// Before its scale, and of its span.
    std::string words;
    std::string figure;
    std::optional<DetailSpan> span{};
};
void draw_detail(const View& view, const Placement& place, const DetailAt& detail, Drawing& into);
/// The least scale of ISO 5455 at which `length` is `wanted` mm on paper or more: mm on paper for
/// one of `units`. Nothing where the largest is too small.
[[nodiscard]] std::optional<double> detail_scale(double length, double wanted,
                                                 quantity::Unit units);

/// The letter of the datum in that place of Section::datums.
[[nodiscard]] std::string datum_letter(std::size_t index);
/// The letter of a page's detail: from the end of the alphabet, so that none is a datum's.
[[nodiscard]] std::string detail_letter(std::size_t index);

/// A line of text, smaller where it would be wider than `width`.
[[nodiscard]] Text fitted_text(const Spot& at, double size, const std::string& strong,
                               const std::string& words, double width);

/// Samples of the two tints with their words, from `from` on, one under the other where they do
/// not go up to `right`. Returns the y below.
[[nodiscard]] double draw_metal_key(const std::string& turning, const std::string& still,
                                    const Spot& from, double right, Drawing& into);

/// The title block with its right edge at `right`. Returns the y of its foot. `scale`: the page's.
[[nodiscard]] double draw_block(const TitleBlock& block, double scale, double right, double top,
                                Drawing& into);

/// The foot of a page: scale, what lines and tints mean, and on a framed page the lines of the foot
/// and the title block. Drawn with its top at `top`; returns the y of its end.
[[nodiscard]] double draw_foot(const std::vector<View>& views, const PageWords& words,
                               const PageSize& page, double scale, double top, Drawing& into);
inline constexpr double kMargin = 10.0;  ///< that any printer leaves white
inline constexpr double kLineHeight = 4.4;

}  // namespace trialfit::draw
