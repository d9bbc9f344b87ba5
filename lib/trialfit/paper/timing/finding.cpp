// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <trialfit/paper/text/figures.hpp>
#include <trialfit/paper/text/layout.hpp>
#include <trialfit/paper/text/table.hpp>
#include <trialfit/paper/text/words.hpp>
#include <trialfit/paper/timing/parts.hpp>
#include <trialfit/paper/timing/words.hpp>

// Finding the top, and marking from it.
namespace trialfit::paper {

namespace {

using timing::TimingAnswer;

// A wheel reads from 0 to 360.
double on_wheel(double degrees) {
    const double within = std::fmod(degrees, 360.0);
    return within < 0.0 ? within + 360.0 : within;
}

Row top_row(std::string name, const timing::FoundTop& top) {
    return {.cells = {{.text = std::move(name)},
                      {.text = degrees(on_wheel(top.top_deg))},
                      {.text = "±" + degrees(top.worst_deg)},
                      {.text = degrees(top.sd_deg)},
                      {.text = "±" + degrees(top.set_worst_deg)}}};
}

std::string gauge_line(const TimingAnswer& answer, const timing::GaugeDwell& dwell) {
    const std::string name =
        dwell.gauge.empty()
            ? fmt::format("A gauge good to ±{}", brief(dwell.half_width))
            : fmt::format("Gauge '{}', good to ±{}", listed(dwell.gauge), brief(dwell.half_width));
    return fmt::format("{} {}, shows no change from {} deg before the top to {} after it.", name,
                       spoken(answer.units), degrees(dwell.before_deg), degrees(dwell.after_deg));
}

void add_offsets(Table& out, std::string_view name, const timing::Circle& circle,
                 const LengthSetter& length) {
    const auto row = [&](const std::string& what, const timing::Offset& offset) {
        out.rows.push_back({.cells = {{.text = what},
                                      {.text = degrees(offset.degrees)},
                                      {.text = length(offset.arc)},
                                      {.text = length(offset.chord)}}});
    };
    const std::string where = fmt::format("{}, diameter {}", name, brief(circle.one_degree.dia, 6));
    row(where + ": one degree", circle.one_degree);
    if (circle.firing) row(where + ": firing mark from top mark", *circle.firing);
    if (circle.turn) row(where + ": turn that it needs (+ earlier)", *circle.turn);
}

std::string offsets(const TimingAnswer& answer, const Style& style) {
    const Table out = offset_table(answer, plain_lengths(answer));
    if (out.rows.empty()) return {};
    const std::string side = offset_side(answer);
    return table(out, style) + (side.empty() ? side : paragraph(side, style.width));
}

std::string found_marks(const TimingAnswer& answer, const Style& style) {
    if (answer.marks.found.empty()) return {};
    return table(found_table(answer, plain_lengths(answer)), style) +
           paragraph(found_verdict(answer.marks), style.width);
}

}  // namespace

Table top_table(const TimingAnswer& answer, const LengthSetter& length) {
    Table out;
    out.columns = {{.heading = "found", .set = Column::Set::names},
                   {.heading = "top, on", .below = "wheel"},
                   {.heading = "worst", .below = "case"},
                   {.heading = "usual", .below = "error"},
                   {.heading = "a mark laid", .below = "off from it"}};
    if (const auto& stops = answer.top.by_stops)
        out.rows.push_back(top_row(
            fmt::format("against a stop, {} below the top", length(*stops->height)), *stops));
    if (answer.top.by_dwell)
        out.rows.push_back(top_row("where the gauge stood still", *answer.top.by_dwell));
    return out;
}

Table offset_table(const TimingAnswer& answer, const LengthSetter& length) {
    Table out;
    out.columns = {{.heading = "mark", .set = Column::Set::names},
                   {.heading = "degrees"},
                   {.heading = "arc"},
                   {.heading = "chord"}};
    if (answer.marks.rim) add_offsets(out, "rotor rim", *answer.marks.rim, length);
    if (answer.marks.stator) add_offsets(out, "stator", *answer.marks.stator, length);
    return out;
}

std::string offset_side(const TimingAnswer& answer) {
    if (!answer.firing || !answer.turns) return {};
    return fmt::format(
        "Seen from outboard, the firing mark lies {} of the top mark on the rotor, and {} of it on "
        "the stator or the case.",
        word(*answer.turns),
        word(*answer.turns == job::Turning::clockwise ? job::Turning::anticlockwise
                                                      : job::Turning::clockwise));
}

std::string found_verdict(const timing::Marks& marks) {
    const auto fitting = std::count_if(marks.found.begin(), marks.found.end(),
                                       [](const timing::MarkFit& mark) { return mark.fits; });
    const timing::MarkFit& nearest = marks.found.at(static_cast<std::size_t>(marks.nearest));
    const std::string off = fmt::format("{} degrees {}", degrees(std::abs(nearest.off_deg)),
                                        nearest.off_deg > 0.0 ? "early" : "late");
    if (fitting == 1) return fmt::format("Mark '{}' is the one, {}.", listed(nearest.name), off);
    if (fitting > 1)
        return fmt::format(
            "{} marks fit within their limits; '{}' is the nearest, {}. Measure them better, or "
            "narrow the limits asked for.",
            fitting, listed(nearest.name), off);
    std::string out = fmt::format("No mark fits; the nearest, '{}', is {}: make a new one.",
                                  listed(nearest.name), off);
    for (const timing::MarkFit& mark : marks.found)
        if (mark.fits_turned_round)
            out += fmt::format(" '{}' would fit an engine that turns the other way.",
                               listed(mark.name));
    return out;
}

Table found_table(const TimingAnswer& answer, const LengthSetter& length) {
    Table out;
    out.columns = {{.heading = "found on the rotor", .set = Column::Set::names},
                   {.heading = "degrees"},
                   {.heading = "limits"},
                   {.heading = "height"},
                   {.heading = "early"},
                   {.heading = "", .set = Column::Set::left}};
    for (const timing::MarkFit& mark : answer.marks.found)
        out.rows.push_back(
            {.cells = {
                 {.text = listed(mark.name) + ": " + listed(mark.written)},
                 {.text = degrees(mark.degrees)},
                 {.text = range(mark.limits, 2)},
                 {.text = mark.height ? length(*mark.height) : "-"},
                 {.text = (mark.off_deg > 0.0 ? "+" : "") + degrees(mark.off_deg)},
                 {.text = mark.fits ? "fits" : "", .ink = mark.fits ? Ink::good : Ink::plain}}});
    return out;
}

std::string top_text(const TimingAnswer& answer, const Style& style) {
    std::string out = table(top_table(answer, plain_lengths(answer)), style);
    for (const timing::GaugeDwell& dwell : answer.top.gauges)
        out += paragraph(gauge_line(answer, dwell), style.width);
    if (!answer.top.by_stops)
        out += paragraph(
            "A stop well below the top, met from both sides, finds it better: 'stops' takes the "
            "readings.",
            style.width);
    return out;
}

std::string marks_text(const TimingAnswer& answer, const Style& style) {
    const std::string laid = offsets(answer, style);
    const std::string found = found_marks(answer, style);
    return laid.empty() || found.empty() ? laid + found : laid + "\n" + found;
}

}  // namespace trialfit::paper
