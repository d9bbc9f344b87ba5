// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <trialfit/reading/section/sections.hpp>
#include <trialfit/reading/size/angles.hpp>
#include <trialfit/reading/timing/parts.hpp>
#include <trialfit/reading/values.hpp>
#include <utility>

namespace trialfit::reading {

namespace {

constexpr AcceptedNumber kTilt{-89.0, 89.0, "it is less than 90 degrees"};
constexpr AcceptedNumber kFireAt{0.0, kMostFromTop_deg,
                                 "it is an angle before top dead centre, at most 180 degrees"};
constexpr AcceptedNumber kFiresNow{
    -kMostFromTop_deg, kMostFromTop_deg,
    "it is an angle before top dead centre, at most 180 degrees, negative "
    "after it"};

// The crank must turn over whatever the sizes are within their limits.
void check_rod(Reader& reader, const Node* node, const job::Timing& timing) {
    if (node == nullptr) return;
    const quantity::Size offset =
        timing.pin_offset ? timing.pin_offset->size : quantity::exact(0.0);
    const double furthest = std::max(std::abs(offset.lower), std::abs(offset.upper));
    if (!(timing.rod.size.lower <= timing.stroke.size.upper / 2.0 + furthest)) return;
    std::string fault = fmt::format("the rod, {}, is no longer than half the stroke, {}",
                                    quoted(timing.rod.written), quoted(timing.stroke.written));
    if (furthest > 0.0)
        fault += fmt::format(", plus the offset, {}", quoted(timing.pin_offset->written));
    reader.error(*node, fault, "the rod is measured between the centres of its two eyes");
}

void check_height(Reader& reader, const Node* node, const std::optional<job::AngleGiven>& given,
                  const job::Timing& timing, std::string_view what) {
    if (node == nullptr || !given || given->in != job::AngleIn::length) return;
    if (!(given->value.size.upper > timing.stroke.size.nominal)) return;
    reader.error(*node,
                 fmt::format("{} is {}, more than the stroke, {}", what,
                             quoted(given->value.written), quoted(timing.stroke.written)),
                 "it is how far the piston stands below its top");
}

void read_engine(Reader& reader, const Fields& fields, job::Timing& timing) {
    timing.stroke = size_at_least(reader, fields.need("stroke", "stroke: SIZE"), Bare::exact,
                                  "the stroke", Least::above_zero);
    timing.rod = size_at_least(reader, fields.need("rod", "rod: SIZE"), Bare::exact, "the rod",
                               Least::above_zero);
    if (const Node* offset = fields.find("pin_offset"))
        timing.pin_offset = size_of(reader, offset, Bare::exact);
    timing.plug_tilt = angle_of(reader, fields.find("plug_tilt"), "the tilt of the plug", kTilt);
    const auto turns = choice_of(reader, fields.find("turns"), "'turns' of the crank",
                                 {"clockwise", "anticlockwise"});
    if (turns)
        timing.turns = *turns == 0 ? trade::Turning::clockwise : trade::Turning::anticlockwise;
    check_rod(reader, fields.find("rod"), timing);
}

void read_dia(Reader& reader, const Node* node, std::string_view what,
              std::optional<job::Given>& dia) {
    if (node != nullptr) dia = size_at_least(reader, node, Bare::exact, what, Least::above_zero);
}

}  // namespace

void read_timing(Reader& reader, const Node& node) {
    const Fields fields(
        reader, node, "'timing'",
        {"stroke", "rod", "pin_offset", "plug_tilt", "turns", "fire_at", "fires_now", "gauge",
         "stops", "dwell", "rim_dia", "stator_dia", "marks", "slot", "curves"});
    if (!fields.ok()) return;
    job::Timing timing;
    timing.at = reader.place(node);
    read_engine(reader, fields, timing);
    const Node* const fire_at = fields.find("fire_at");
    timing.fire_at = angle_or_length_of(reader, fire_at, "'fire_at'", kFireAt);
    check_height(reader, fire_at, timing.fire_at, timing, "'fire_at'");
    const Node* const fires_now = fields.find("fires_now");
    timing.fires_now = angle_or_length_of(reader, fires_now, "'fires_now'", kFiresNow);
    check_height(reader, fires_now, timing.fires_now, timing, "'fires_now'");
    timing.gauge = gauge_of(reader, fields.find("gauge"));
    read_dia(reader, fields.find("rim_dia"), "the diameter of the rim", timing.rim_dia);
    read_dia(reader, fields.find("stator_dia"), "the diameter of the stator", timing.stator_dia);
    if (const Node* stops = fields.find("stops")) read_stops(reader, *stops, timing);
    if (const Node* dwell = fields.find("dwell")) read_dwell(reader, *dwell, timing);
    if (const Node* marks = fields.find("marks")) read_marks(reader, *marks, timing);
    if (const Node* slot = fields.find("slot")) read_slot(reader, *slot, timing);
    if (const Node* curves = fields.find("curves")) read_curves(reader, *curves, timing);
    reader.job.timing = std::move(timing);
}

}  // namespace trialfit::reading
