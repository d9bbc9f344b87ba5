// SPDX-License-Identifier: MIT
#pragma once

#include <optional>
#include <string>
#include <trialfit/draw/drawing.hpp>
#include <trialfit/draw/section/section.hpp>
#include <variant>
#include <vector>

namespace trialfit::draw {

/// A label's words: what is set bold, and the rest.
struct Words {
    std::string strong;
    std::string rest;
    /// Beside the view on a line of its own; above it after the rest.
    std::string below{};
};

/// The words of a section, made by a printer, in the order of the section's lists. What has none is
/// not named.
struct SectionWords {
    std::vector<Words> parts;
    std::vector<Words> fouls;
    std::vector<Words> removals;
    std::vector<Words> dimensions;
    /// The figure alone, for a detail.
    std::vector<std::string> figures;
    std::vector<Words> shims{};
    std::vector<Words> keys{};
    std::vector<Words> finishes{};
    std::vector<Words> lead_ins{};
    std::vector<Words> bearings{};
    /// Above the view: what is set bold, and lines after it, the first beside it; empty for none.
    std::string heading;
    std::vector<std::string> heading_lines;
};

/// Of more parts than these none is named in the view, since clear ways for that take too long: a
/// part that no clear leader reaches has no name.
inline constexpr std::size_t kMostNamedInside = 60;

/// One view of a job's section and its words.
struct View {
    const Section* section = nullptr;
    SectionWords words;
    /// One a part, alike in all views; laid_out() chooses it.
    std::vector<Hatch> hatching{};
};

/// A field of the title block: its name, small, above what stands in it; no lines: empty.
struct BlockField {
    double width = 0.0;  ///< mm
    std::string name;
    std::vector<std::string> lines;
    bool strong = false;
    /// The page's scale stands in it.
    bool scale = false;
};

/// The title block (ISO 7200: 180 mm wide, at the lower right), row by row; the fields of a row are
/// as wide together as the block.
struct TitleBlock {
    std::vector<std::vector<BlockField>> rows;
};

/// The words around the views.
struct PageWords {
    std::string title;
    /// Under the title, and at the foot of the page.
    std::vector<std::string> lines;
    std::vector<std::string> foot;
    TitleBlock block{};
    /// At the ends of the axis.
    std::string inboard{};
    std::string outboard{};
    /// What the tints and kinds of line mean.
    std::string turning{};
    std::string still{};
    std::string in_place;
    std::string fouls;
    std::string removals;
    std::string shims;
    std::string keys;
    std::string presumed;
    std::string unsure;
    /// Of a detail: "Z", "Y" and so on come before it, the scale after.
    std::string detail;
    /// Behind what is listed under a view and nothing in it points to.
    std::string no_room{};
};

/// Places the views, side by side from the left, with their labels: no two texts overlap, none
/// leaves the page. `scale`: millimetres on paper for one in the engine; nothing for the largest
/// that goes on the page: of ISO 5455 (1, 2, 5 times a power of ten) on a framed one, of 1, 1.25,
/// 1.5, 2, 2.5, 3, 4, 5 times a power of ten where the views are a part of a page. None is taken at
/// which the metal would be a dot among its words: then the page is too small. Radial and axial
/// scale are equal.
[[nodiscard]] std::variant<Drawing, TooLarge> laid_out(std::vector<View> views,
                                                       const PageWords& words, const PageSize& page,
                                                       std::optional<double> scale);

/// A page of details alone, each at a scale of ISO 5455 at which it is seen: jams, gaps that are
/// too small in the section, both ends of unlike cones, turns that are not whole; the worst first,
/// as many as have room. In the first field the section, small, with their letters. Nothing where
/// there is nothing to magnify.
[[nodiscard]] std::optional<Drawing> detail_page(View view, const PageWords& words,
                                                 const PageSize& page);

/// Width for a line of PageWords::foot, mm: beside the title block where there is room, else above
/// it.
[[nodiscard]] double foot_width(const PageSize& page);

/// "2:1", "1:5", "1.5:1".
[[nodiscard]] std::string scale_words(double scale);

}  // namespace trialfit::draw
