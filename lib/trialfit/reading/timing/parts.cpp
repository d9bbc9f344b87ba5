// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <numbers>

#include <cmath>
#include <string>
#include <trialfit/reading/size/angles.hpp>
#include <trialfit/reading/timing/parts.hpp>
#include <trialfit/reading/values.hpp>
#include <unordered_map>
#include <utility>

namespace trialfit::reading {

namespace {

constexpr AcceptedNumber kWheel{-720.0, 720.0,
                                "it is a reading of a degree wheel, at most two turns"};
constexpr AcceptedNumber kWheelError{0.0, 45.0,
                                     "it is the half-width that the wheel is good to, 0 to 45"};
constexpr AcceptedNumber kOnRotor{-360.0, 360.0, "it is an angle on the rotor, at most a turn"};
constexpr double kTurn_deg = 360.0;

/// A pair of wheel readings, the second raised to lie after the first within a turn.
struct WheelReadings {
    double first_deg = 0.0;
    double second_deg = 0.0;
    double wheel_deg = 0.0;
};

WheelReadings read_wheel(Reader& reader, const Fields& fields, std::string_view first,
                         std::string_view second) {
    const auto angle = [&](std::string_view key, std::string_view example,
                           const AcceptedNumber& bounds) {
        return figure_of(reader, fields.need(key, example), fmt::format("'{}'", key), "deg", bounds)
            .value_or(0.0);
    };
    WheelReadings out;
    out.first_deg = angle(first, fmt::format("{}: ANGLE", first), kWheel);
    out.second_deg = angle(second, fmt::format("{}: ANGLE", second), kWheel);
    out.wheel_deg = angle("wheel", "wheel: ANGLE", kWheelError);
    const double span = std::fmod(out.second_deg - out.first_deg, kTurn_deg);
    out.second_deg = out.first_deg + (span < 0.0 ? span + kTurn_deg : span);
    return out;
}

}  // namespace

void read_slot(Reader& reader, const Node& node, job::Timing& timing) {
    const Fields fields(reader, node, "the slot", {"dia", "length", "screw", "free_earlier"});
    job::Slot slot;
    slot.at = reader.place(node);
    slot.dia = size_at_least(reader, fields.need("dia", "dia: SIZE"), Bare::exact,
                             "the diameter that the slot lies on", Least::above_zero);
    slot.length = size_at_least(reader, fields.need("length", "length: SIZE"), Bare::exact,
                                "the length of the slot", Least::above_zero);
    if (slot.dia.size.nominal > 0.0 &&
        slot.length.size.upper >= std::numbers::pi * slot.dia.size.lower)
        reader.error(
            *fields.find("length"),
            fmt::format("the slot, {}, is as long as the whole circle that it lies on, {:.6g}",
                        quoted(slot.length.written), std::numbers::pi * slot.dia.size.nominal),
            "mend 'length' or 'dia': a slot is a part of its circle");
    double travel = slot.length.size.nominal;
    if (const Node* screw = fields.find("screw")) {
        slot.screw = size_at_least(reader, screw, Bare::exact, "the screw", Least::above_zero);
        travel -= slot.screw->size.nominal;
        if (slot.screw->size.upper >= slot.length.size.lower)
            reader.error(*screw,
                         fmt::format("the screw, {}, fills the slot, {}",
                                     quoted(slot.screw->written), quoted(slot.length.written)),
                         "'length' is the slot's from end to end; leave 'screw' out where it is "
                         "the travel");
    }
    if (const Node* room = fields.find("free_earlier")) {
        slot.free_earlier =
            size_at_least(reader, room, Bare::exact, "'free_earlier'", Least::zero_allowed);
        // A screw that fills the slot is said already.
        if (travel > 0.0 && slot.free_earlier->size.nominal > travel)
            reader.error(*room,
                         fmt::format("'free_earlier' is {}, more than the screw can travel",
                                     quoted(slot.free_earlier->written)),
                         fmt::format("the whole travel is {:g}", travel));
    }
    timing.slot = slot;
}

void read_stops(Reader& reader, const Node& node, job::Timing& timing) {
    const Fields fields(reader, node, "'stops'", {"before", "after", "wheel", "holds"});
    if (!fields.ok()) return;
    const WheelReadings wheel = read_wheel(reader, fields, "before", "after");
    const Node* const after = fields.find("after");
    if (after != nullptr && fields.find("before") != nullptr &&
        !(wheel.second_deg > wheel.first_deg))
        reader.error(*after, "'before' and 'after' are the same reading",
                     "read the wheel where the piston meets the stop before the top, and again "
                     "after it");
    timing.stops = job::StopReadings{
        .at = reader.place(node),
        .before_deg = wheel.first_deg,
        .after_deg = wheel.second_deg,
        .wheel_deg = wheel.wheel_deg,
        .holds = half_width_of(reader, fields.find("holds"), "'holds' of the stop")};
}

void read_dwell(Reader& reader, const Node& node, job::Timing& timing) {
    const Fields fields(reader, node, "'dwell'", {"from", "to", "wheel"});
    if (!fields.ok()) return;
    const WheelReadings wheel = read_wheel(reader, fields, "from", "to");
    const Node* const to = fields.find("to");
    if (to != nullptr && fields.find("from") != nullptr &&
        wheel.second_deg - wheel.first_deg > kTurn_deg / 2.0)
        reader.error(*to, "the dwell is more than half a turn",
                     "'from' is the reading where the gauge stops rising, 'to' where it begins to "
                     "fall");
    timing.dwell = job::DwellReadings{.at = reader.place(node),
                                      .from_deg = wheel.first_deg,
                                      .to_deg = wheel.second_deg,
                                      .wheel_deg = wheel.wheel_deg};
}

void read_marks(Reader& reader, const Node& marks, job::Timing& timing) {
    if (!expect_list(reader, marks, "'marks'", "'- {mark: NAME, at: 17 deg}'")) return;
    std::unordered_map<std::string, job::Place> lines;
    for (const Node& node : marks.children) {
        const Fields fields(reader, node, "this mark", {"mark", "at"});
        job::TimingMark mark;
        mark.at = reader.place(node);
        mark.name = text_of(reader, fields.need("mark", "mark: NAME"), "the name of a mark");
        const Node* const at = fields.need("at", "at: ANGLE");
        if (const auto angle = angle_or_length_of(reader, at, "the place of a mark", kOnRotor)) {
            mark.angle = *angle;
            if (angle->in == job::AngleIn::length && !timing.rim_dia)
                reader.error(*at, "a mark is given as an arc, and 'rim_dia' is not given",
                             "add 'rim_dia: SIZE' to 'timing', or give the mark in degrees");
        }
        const auto [first, fresh] = lines.emplace(mark.name, mark.at);
        if (!fresh && !mark.name.empty())
            reader.error(node,
                         fmt::format("there are two marks named {}; the first is in {}",
                                     quoted(mark.name), reader.line_words(first->second)),
                         "give one of them another name");
        timing.marks.push_back(std::move(mark));
    }
}

}  // namespace trialfit::reading
