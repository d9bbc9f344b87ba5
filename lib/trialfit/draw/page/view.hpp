// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <trialfit/draw/page/layout.hpp>
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
    [[nodiscard]] std::vector<Spot> at(const Loop& loop) const;
    [[nodiscard]] std::vector<std::vector<Spot>> at(const std::vector<Loop>& loops) const;
};

/// How each part is hatched: unlike every part that comes near it in any view, and alike in all.
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
/// Length of the tails on the view itself.
inline constexpr double kTailAcross = 4.0;
/// The dimensions across the axis; their words stand among the side labels.
void draw_across(const Section& section, const Placement& place, Drawing& into);

/// A label beside the view, its leader, and the point it names.
struct SideLabel {
    Words words;
    Point anchor;
    bool right = true;
    /// The leader ends where the outer arrow's tail does, and without a dot.
    bool at_tail = false;
    double width = 0.0;
    double y = 0.0;  ///< of the baseline, once placed
};
/// Names, fouls and dimensions across, each on the side from which the fewest other parts stand in
/// the way.
[[nodiscard]] std::vector<SideLabel> side_labels(const Section& section, const SectionWords& words);
/// What it takes of its side's height.
[[nodiscard]] double height_of(const SideLabel& label);
/// Gives every label its height between `top` and `bottom`, as near its anchor as may be; labels of
/// one side keep their order and their distance.
void spread(std::vector<SideLabel>& labels, const Placement& place, double top, double bottom);
void draw_labels(const std::vector<SideLabel>& labels, const Placement& place, double left,
                 double right, Drawing& into);

/// The dimensions in rows above `base`, each with its words beside it, nothing crossing a text.
/// Returns the y above which all is free.
[[nodiscard]] double draw_dimensions(const Section& section, const SectionWords& words,
                                     const Placement& place, const Box& within, double base,
                                     Drawing& into);

/// A dimension too small to see at scale, and by how much its detail magnifies it.
struct Magnified {
    std::size_t dimension = 0;
    double times = 1.0;
};
[[nodiscard]] std::vector<Magnified> too_small(const Section& section, double paper_scale);
inline constexpr double kDetailRadius = 14.0;
inline constexpr double kDetailHeight = 2.0 * kDetailRadius + 7.0;
/// One detail centred at `at`, and its mark on the view.
struct DetailAt {
    Magnified what;
    Spot at;
    std::string letter;
    std::string words;
};
void draw_detail(const View& view, const Placement& place, const DetailAt& detail,
                 double page_scale, Drawing& into);

}  // namespace trialfit::draw
