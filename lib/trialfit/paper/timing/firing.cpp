// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <cmath>
#include <trialfit/paper/text/figures.hpp>
#include <trialfit/paper/text/layout.hpp>
#include <trialfit/paper/text/table.hpp>
#include <trialfit/paper/text/words.hpp>
#include <trialfit/paper/timing/parts.hpp>
#include <trialfit/paper/timing/words.hpp>

namespace trialfit::paper {

namespace {

using timing::TimingAnswer;

constexpr std::size_t kLabel = 14;
// The division that a dial of the file's unit commonly has.
struct SmallStep {
    std::string_view words;
    double length = 0.0;
};
SmallStep small_step(quantity::Unit units) {
    switch (units) {
        case quantity::Unit::inch:
            return {"0.001 inch", 0.001};
        case quantity::Unit::thou:
            return {"1 thou", 1.0};
        case quantity::Unit::um:
            return {"10 um", 10.0};
        case quantity::Unit::mm:
            break;
    }
    return {"0.01 mm", 0.01};
}

std::string line(std::string_view label, const std::string& value, const Style& style) {
    return paragraph(value, style.width, "  " + left(label, kLabel));
}

std::string figures(const TimingAnswer& answer, const Style& style) {
    const timing::Firing& firing = *answer.firing;
    const timing::Point& set = firing.set;
    const int decimals = length_decimals(answer);
    const std::string_view unit = spoken(answer.units);
    std::string asked = listed(firing.written);
    if (firing.allowed_deg && firing.in == job::AngleIn::length)
        asked += fmt::format(", which is {} deg", range(*firing.allowed_deg, 2));
    if (firing.allowed_height && firing.in == job::AngleIn::degrees)
        asked += fmt::format(", which is {} {}", range(*firing.allowed_height, decimals), unit);
    std::string out = line("asked for", asked, style);
    out += line("crank angle",
                fmt::format("{} deg before the top; set by gauge it is {} in the worst case, {} by "
                            "RSS",
                            degrees(set.degrees), range(set.worst, 2), range(set.rss, 2)),
                style);
    out += line("piston", fmt::format("{} {} below its top", fixed(set.height, decimals), unit),
                style);
    if (answer.plug_tilt_deg != 0.0)
        out += line("gauge reads",
                    fmt::format("{} {}, tilted with the plug hole",
                                fixed(set.gauge_reading, decimals), unit),
                    style);
    if (const DialStep step = dial_step(answer); !step.length.empty())
        out += line(step.length + " is", step.degrees + " deg here", style);
    return out;
}

std::string shares(const timing::Point& set, const Style& style) {
    Table out;
    out.columns = {{.heading = "adds", .below = "deg"},
                   {.heading = "of worst", .below = "case"},
                   {.heading = "of the", .below = "spread"},
                   {.heading = "where its doubt comes from", .set = Column::Set::names}};
    for (const timing::Share& each : set.shares)
        out.rows.push_back({.cells = {{.text = "±" + degrees(std::abs(each.half_width_deg))},
                                      {.text = percent(each.worst_share)},
                                      {.text = percent(each.variance_share)},
                                      {.text = each.written.empty() ? listed(each.of)
                                                                    : listed(each.of) + ": " +
                                                                          listed(each.written)}}});
    return out.rows.empty() ? std::string() : "\n" + table(out, style);
}

std::string kept(const TimingAnswer& answer, const Style& style) {
    const timing::Firing& firing = *answer.firing;
    if (!firing.gauge_keeps_it) return {};
    const std::string gauge = listed(firing.gauge);
    switch (*firing.gauge_keeps_it) {
        case stack::Verdict::holds:
            return "\n" + paragraph(fmt::format("Gauge '{}' keeps it within the limits asked for, "
                                                "even in the worst case.",
                                                gauge),
                                    style.width);
        case stack::Verdict::not_judged:
        case stack::Verdict::doubtful:
            return "\n" + paragraph(fmt::format("Gauge '{}' may leave the limits asked for in the "
                                                "worst case.",
                                                gauge),
                                    style.width);
        case stack::Verdict::fails:
            break;
    }
    return "\n" +
           paragraph("The nominal lies outside of the limits asked for: aim at their middle.",
                     style.width);
}

}  // namespace

DialStep dial_step(const TimingAnswer& answer) {
    const double per_deg = answer.firing->set.height_per_deg;
    if (!(per_deg > 0.0)) return {};
    const SmallStep step = small_step(answer.units);
    return {.length = std::string(step.words), .degrees = degrees(step.length / per_deg)};
}

std::string firing_text(const TimingAnswer& answer, const Style& style) {
    return figures(answer, style) + shares(answer.firing->set, style) + kept(answer, style);
}

}  // namespace trialfit::paper
