// SPDX-License-Identifier: MIT
#include <algorithm>
#include <cstddef>
#include <trialfit/draw/page/lettered.hpp>
#include <trialfit/draw/page/view.hpp>

namespace trialfit::draw {

namespace {

constexpr double kEdge = 1.0;         // white around the picture
constexpr double kBeyondAxis = 3.0;   // the axis beyond the metal
constexpr double kFirstColumn = 4.0;  // of diameters, from the metal
constexpr double kColumnStep = 4.4;   // letters of two columns stand in two lines
constexpr double kLetterLine = 3.8;
constexpr double kNameGap = 3.0;

View view_of(const Lettered& picture) {
    View view{.section = &picture.section};
    const bool named = picture.section.parts.size() > 1;
    for (const PartShape& part : picture.section.parts)
        view.words.parts.push_back({.strong = named ? part.name : "", .rest = ""});
    for (const std::string& letter : picture.letters)
        view.words.dimensions.push_back({.strong = letter, .rest = ""});
    view.hatching = hatches({view});
    return view;
}

void draw_diameter(const LetteredDiameter& dia, const Placement& place, double x, double foot,
                   Drawing& into) {
    const Spot edge = place.at(dia.edge);
    into.paths.push_back(
        {.pen = Pen::dimension,
         .runs = {{edge, {x + 1.0, edge.y}}, {{x, edge.y}, {x, foot - kLetterLine + 0.8}}}});
    into.paths.push_back(filled_path(
        Fill::black, {{{x, edge.y}, {x - 0.5, edge.y + 2.0}, {x + 0.5, edge.y + 2.0}}}));
    into.circles.push_back({.at = edge, .radius = 0.5, .pen = Pen::none, .fill = Fill::black});
    into.texts.push_back(text_at({x, foot}, kFigureSize, Anchor::middle, dia.letter, ""));
}

// The room that names and diameters take beside the metal.
struct Beside {
    double left = kBeyondAxis;
    double right = kBeyondAxis;
};

Beside beside(const Lettered& picture, const std::vector<SideLabel>& names) {
    Beside out;
    const auto columns = static_cast<double>(picture.diameters.size());
    if (columns > 0.0) out.right = kFirstColumn + kColumnStep * columns;
    for (const SideLabel& name : names) {
        double& side = name.right ? out.right : out.left;
        side = std::max(side, kBeyondAxis + kNameGap + name.width);
    }
    return out;
}

}  // namespace

Drawing drawn(const Lettered& picture, const AxisWords& words, double width, double most_height) {
    const View view = view_of(picture);
    const Section& section = picture.section;
    std::vector<SideLabel> names;
    if (section.parts.size() > 1) {
        Section metal = section;
        metal.dimensions.clear();
        // The scale goes by the names' width, and what is near goes by the scale: a first guess.
        names = side_labels(metal, view.words, width / std::max(metal.z_max - metal.z_min, 1e-9));
        for (SideLabel& name : names)
            name.inside = false;
    }
    const Beside room = beside(picture, names);
    const double span = std::max(section.z_max - section.z_min, 1e-9);
    const double metal_width = width - 2.0 * kEdge - room.left - room.right;
    Drawing into{.width = width};
    Placement place{.scale =
                        std::min(metal_width / span, most_height / std::max(section.r_max, 1e-9))};
    const double spare = metal_width - place.scale * span;
    place.x0 = kEdge + room.left + spare / 2.0 - place.scale * section.z_min;
    into.scale = place.scale;
    const double height = place.scale * section.r_max;
    const Box within{kEdge, 0.0, width - kEdge, 0.0};
    place.axis = height;
    Drawing trial;
    const double rows = -draw_dimensions(section, view.words, place, within, -2.0, trial);
    place.axis = kEdge + rows + height;
    draw_metal(view, place, {}, into);
    const double z0 = place.at({section.z_min, 0.0}).x;
    const double z1 = place.at({section.z_max, 0.0}).x;
    into.paths.push_back(
        {.pen = Pen::axis,
         .runs = {{{z0 - kBeyondAxis, place.axis}, {z1 + kBeyondAxis, place.axis}}}});
    static_cast<void>(
        draw_dimensions(section, view.words, place, within, place.axis - height - 2.0, into));
    double foot = place.axis + kLetterLine + 1.0;
    for (std::size_t i = 0; i < picture.diameters.size(); ++i)
        draw_diameter(picture.diameters[i], place,
                      z1 + kFirstColumn + kColumnStep * (static_cast<double>(i) + 0.5),
                      foot + (i % 2 == 1 ? kLetterLine : 0.0), into);
    if (!names.empty()) {
        double high = 0.0;
        for (const SideLabel& name : names)
            high += height_of(name);
        spread(names, place, place.axis - height, std::max(place.axis, place.axis - height + high));
        draw_labels(names, place,
                    {.left = z0 - kBeyondAxis - kNameGap,
                     .right = z1 + kBeyondAxis + kNameGap,
                     .metal_left = z0,
                     .metal_right = z1},
                    into);
    }
    foot += picture.diameters.size() > 1 ? kLetterLine : 0.0;
    for (const Text& text : into.texts)
        foot = std::max(foot, text.box.y1);
    foot += kLetterLine;
    into.texts.push_back(text_at({kEdge, foot}, kFigureSize, Anchor::start, "", words.inboard));
    into.texts.push_back(
        text_at({width - kEdge, foot}, kFigureSize, Anchor::end, "", words.outboard));
    into.height = foot + kEdge;
    return into;
}

}  // namespace trialfit::draw
