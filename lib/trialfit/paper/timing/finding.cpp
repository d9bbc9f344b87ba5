// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <trialfit/paper/text/figures.hpp>
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
    return {.cells = {std::move(name), degrees(on_wheel(top.top_deg)), "±" + degrees(top.worst_deg),
                      degrees(top.sd_deg), "±" + degrees(top.set_worst_deg)}};
}

std::string gauge_line(const TimingAnswer& answer, const timing::GaugeDwell& dwell) {
    const std::string name =
        dwell.gauge.empty()
            ? fmt::format("A gauge good to ±{}", brief(dwell.half_width))
            : fmt::format("Gauge '{}', good to ±{}", listed(dwell.gauge), brief(dwell.half_width));
    return fmt::format("{} {}, shows no change from {} deg before the top to {} after it.", name,
                       spoken(answer.units), degrees(dwell.before_deg), degrees(dwell.after_deg));
}

void add_offsets(Table& out, std::string_view name, const timing::MarkCircle& circle,
                 const Lengths& length) {
    const auto row = [&](const std::string& what, const timing::Offset& offset) {
        out.add({what, degrees(offset.degrees), length(offset.arc), length(offset.chord)});
    };
    const std::string where = fmt::format("{}, diameter {}", name, brief(circle.one_degree.dia, 6));
    row(where + ": one degree", circle.one_degree);
    if (circle.firing) row(where + ": firing mark from top mark", *circle.firing);
    if (circle.turn) row(where + ": turn that it needs (+ earlier)", *circle.turn);
}

}  // namespace

Table top_table(const TimingAnswer& answer, const Lengths& length) {
    Table out{.columns = {Column::names("found"), "top, on\nwheel", "worst\ncase", "usual\nerror",
                          "a mark laid\noff from it"}};
    if (const auto& stops = answer.top.by_stops)
        out.rows.push_back(top_row(
            fmt::format("against a stop, {} below the top", length(*stops->height)), *stops));
    if (answer.top.by_dwell)
        out.rows.push_back(top_row("where the gauge stood still", *answer.top.by_dwell));
    return out;
}

Table offset_table(const TimingAnswer& answer, const Lengths& length) {
    Table out{.columns = {Column::names("mark"), "degrees", "arc", "chord"}};
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
        word(*answer.turns == trade::Turning::clockwise ? trade::Turning::anticlockwise
                                                        : trade::Turning::clockwise));
}

std::string found_verdict(const timing::Marks& marks) {
    const auto fitting = std::ranges::count_if(marks.found, &timing::MarkFit::fits);
    const timing::MarkFit& nearest = marks.found.at(marks.nearest.value());
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

Table found_table(const TimingAnswer& answer, const Lengths& length) {
    Table out{.columns = {Column::names("found on the rotor"), "degrees", "limits", "height",
                          "early", Column::words("")}};
    for (const timing::MarkFit& mark : answer.marks.found)
        out.add({listed(mark.name) + ": " + listed(mark.written), degrees(mark.degrees),
                 range(mark.limits, 2), mark.height ? length(*mark.height) : "-",
                 (mark.off_deg > 0.0 ? "+" : "") + degrees(mark.off_deg),
                 mark.fits ? Cell("fits", Ink::good) : Cell()});
    return out;
}

Document top_section(const TimingAnswer& answer) {
    Document out;
    out.under(top_table(answer, plain_lengths(answer)));
    for (const timing::GaugeDwell& dwell : answer.top.gauges)
        out.under(Paragraph{gauge_line(answer, dwell)});
    if (!answer.top.by_stops)
        out.under(Paragraph{
            "A stop well below the top, met from both sides, finds it better: 'stops' takes the "
            "readings."});
    return out;
}

Document marks_section(const TimingAnswer& answer) {
    const Lengths set = plain_lengths(answer);
    Document out;
    out.under(offset_table(answer, set));
    if (!out.blocks.empty()) out.under(Paragraph{offset_side(answer)});
    if (answer.marks.found.empty()) return out;
    Table found = found_table(answer, set);
    out.blocks.empty() ? out.under(std::move(found)) : out.add(std::move(found));
    return out.under(Paragraph{found_verdict(answer.marks)});
}

}  // namespace trialfit::paper
