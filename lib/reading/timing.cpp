// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <string_view>
#include <trialfit/reading/sections.hpp>
#include <trialfit/reading/tokens.hpp>
#include <trialfit/reading/values.hpp>
#include <unordered_map>
#include <utility>

namespace trialfit::reading {

namespace {

constexpr Bounds kTilt{-89.0, 89.0, "it is less than 90 degrees"};
constexpr Bounds kSpeed{0.0, 1e6, "it is a speed in revolutions per minute"};
constexpr Bounds kAdvance{-360.0, 360.0, "it is an angle in degrees of crank, at most 360"};

// A piston height, or an angle: the word at the end says which.
void read_fire_at(Reader& reader, const Node& node, job::Timing& timing) {
    constexpr std::string_view kDegrees = "deg";
    const std::string_view words = trimmed(node.scalar);
    job::FireAt fire;
    if (node.is_scalar() && words.ends_with(kDegrees)) {
        Node angle = node;
        angle.scalar = trimmed(words.substr(0, words.size() - kDegrees.size()));
        fire.in = job::FireIn::degrees;
        fire.value = size_of(reader, &angle, Bare::exact);
        fire.value.written = words;
    } else {
        if (node.is_scalar() && number_of(words))
            return reader.error(
                node,
                fmt::format("'fire_at' is {}, which may be a height or an angle", quoted(words)),
                fmt::format("write '{0} mm' or '{0} deg'", clipped(words)));
        fire.value = size_at_least(reader, &node, Bare::exact, "'fire_at'", Least::zero_allowed);
    }
    timing.fire_at = fire;
}

void read_slot(Reader& reader, const Node& node, job::Timing& timing) {
    const Fields fields(reader, node, "the slot", {"dia", "length"});
    job::Slot slot;
    slot.at = reader.place(node);
    slot.dia = size_at_least(reader, fields.need("dia", "dia: 70"), Bare::exact,
                             "the diameter that the slot lies on", Least::above_zero);
    slot.length = size_at_least(reader, fields.need("length", "length: 12"), Bare::exact,
                                "the length of the slot", Least::zero_allowed);
    timing.slot = slot;
}

job::Curve read_curve(Reader& reader, const Node& node) {
    const Fields fields(reader, node, "this curve", {"curve", "points"});
    job::Curve curve;
    curve.at = reader.place(node);
    curve.name = text_of(reader, fields.need("curve", "curve: NAME"), "the name of a curve");
    const Node* const points = fields.need("points", "points: [[1000, 25], [4000, 17]]");
    constexpr std::string_view kExample = "'[[1000, 25], [4000, 17]]'";
    if (points == nullptr || !expect_list(reader, *points, "'points'", kExample)) return curve;
    for (const Node& point : points->children) {
        if (!point.is_list() || point.children.size() != 2) {
            reader.error(point, "a point of a curve is not a speed and an angle",
                         fmt::format("write the points like {}", kExample));
            continue;
        }
        const auto rpm = number_in(reader, &point.children[0], "a speed of the curve", kSpeed);
        const auto degrees =
            number_in(reader, &point.children[1], "an advance of the curve", kAdvance);
        if (!rpm || !degrees) continue;
        if (!curve.points.empty() && *rpm <= curve.points.back().rpm)
            reader.error(point.children[0],
                         fmt::format("the speed {} does not rise above the one before",
                                     quoted(point.children[0].scalar)),
                         "list the points by rising speed");
        curve.points.push_back({.rpm = *rpm, .degrees = *degrees});
    }
    return curve;
}

void read_curves(Reader& reader, const Node& curves, job::Timing& timing) {
    if (!expect_list(reader, curves, "'curves'", "'- {curve: NAME, points: [[1000, 25]]}'")) return;
    std::unordered_map<std::string, int> lines;
    for (const Node& node : curves.children) {
        job::Curve curve = read_curve(reader, node);
        const auto [first, fresh] = lines.emplace(curve.name, curve.at.line);
        if (!fresh && !curve.name.empty())
            reader.error(node,
                         fmt::format("there are two curves named {}; the first is in line {}",
                                     quoted(curve.name), first->second),
                         "give one of them another name");
        timing.curves.push_back(std::move(curve));
    }
}

}  // namespace

void read_timing(Reader& reader, const Node& node) {
    const Fields fields(reader, node, "'timing'",
                        {"stroke", "rod", "pin_offset", "plug_tilt", "turns", "fire_at", "gauge",
                         "rim_dia", "slot", "curves"});
    if (!fields.ok()) return;
    job::Timing timing;
    timing.at = reader.place(node);
    timing.stroke = size_at_least(reader, fields.need("stroke", "stroke: 48.5"), Bare::exact,
                                  "the stroke", Least::above_zero);
    timing.rod = size_at_least(reader, fields.need("rod", "rod: 95"), Bare::exact, "the rod",
                               Least::above_zero);
    if (timing.rod.size.nominal <= timing.stroke.size.nominal / 2.0)
        reader.error(*fields.find("rod"),
                     fmt::format("the rod, {}, is no longer than half the stroke, {}",
                                 quoted(timing.rod.written), quoted(timing.stroke.written)),
                     "the rod is measured between the centres of its two eyes");
    if (const Node* offset = fields.find("pin_offset"))
        timing.pin_offset = size_of(reader, offset, Bare::exact);
    timing.plug_tilt_deg =
        figure_of(reader, fields.find("plug_tilt"), "the tilt of the plug", "deg", kTilt)
            .value_or(0.0);
    const auto turns = choice_of(reader, fields.find("turns"), "'turns' of the crank",
                                 {"clockwise", "anticlockwise"});
    if (turns) timing.turns = *turns == 0 ? job::Turning::clockwise : job::Turning::anticlockwise;
    if (const Node* fire = fields.find("fire_at")) read_fire_at(reader, *fire, timing);
    timing.gauge = gauge_of(reader, fields.find("gauge"));
    if (const Node* rim = fields.find("rim_dia"))
        timing.rim_dia =
            size_at_least(reader, rim, Bare::exact, "the diameter of the rim", Least::above_zero);
    if (const Node* slot = fields.find("slot")) read_slot(reader, *slot, timing);
    if (const Node* curves = fields.find("curves")) read_curves(reader, *curves, timing);
    reader.job.timing = std::move(timing);
}

}  // namespace trialfit::reading
