// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <trialfit/paper/text/figures.hpp>
#include <trialfit/paper/text/words.hpp>
#include <trialfit/paper/timing/parts.hpp>
#include <trialfit/paper/timing/words.hpp>

namespace trialfit::paper {

namespace {

using timing::TimingAnswer;

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

Facts figures(const TimingAnswer& answer) {
    constexpr std::size_t kLabel = 14;
    const timing::Firing& firing = *answer.firing;
    const timing::CrankPoint& set = firing.set;
    const int decimals = length_decimals(answer);
    const std::string_view unit = spoken(answer.units);
    std::string asked = listed(firing.written);
    if (firing.allowed_deg && firing.in == job::AngleIn::length)
        asked += fmt::format(", which is {} deg", range(*firing.allowed_deg, 2));
    if (firing.allowed_height && firing.in == job::AngleIn::degrees)
        asked += fmt::format(", which is {} {}", range(*firing.allowed_height, decimals), unit);
    const std::string angle =
        fmt::format("{} deg before the top; set by gauge it is {} in the worst case, {} by RSS{}",
                    degrees(set.degrees), range(set.worst, 2), range(set.rss, 2),
                    firing.gauge.empty() ? ", without the gauge's own error" : "");
    Facts out{.lines = {{"asked for", asked},
                        {"crank angle", angle},
                        {"piston",
                         fmt::format("{} {} below its top", fixed(set.height, decimals), unit)}},
              .label_columns = kLabel};
    if (answer.plug_tilt_deg != 0.0)
        out.lines.push_back({"gauge reads", fmt::format("{} {}, tilted with the plug hole",
                                                        fixed(set.gauge_reading, decimals), unit)});
    if (const DialStep step = dial_step(answer); !step.length.empty())
        out.lines.push_back({step.length + " is", step.degrees + " deg here"});
    return out;
}

Table shares(const timing::CrankPoint& set) {
    Table out{.columns = {"adds\ndeg", "of worst\ncase", "of the\nspread",
                          Column::names("where its doubt comes from")}};
    for (const timing::Share& each : set.shares)
        out.add({"±" + degrees(std::abs(each.half_width_deg)), percent(each.worst_share),
                 percent(each.variance_share),
                 each.written.empty() ? listed(each.of)
                                      : listed(each.of) + ": " + listed(each.written)});
    return out;
}

std::string kept(const TimingAnswer& answer) {
    const timing::Firing& firing = *answer.firing;
    if (!firing.gauge_keeps_it) return {};
    const std::string gauge = listed(firing.gauge);
    switch (*firing.gauge_keeps_it) {
        case stack::Verdict::holds:
            return fmt::format(
                "Gauge '{}' keeps it within the limits asked for, even in the worst case.", gauge);
        case stack::Verdict::not_judged:
        case stack::Verdict::doubtful:
            return fmt::format("Gauge '{}' may leave the limits asked for in the worst case.",
                               gauge);
        case stack::Verdict::fails:
            break;
    }
    return "The nominal lies outside of the limits asked for: aim at their middle.";
}

}  // namespace

DialStep dial_step(const TimingAnswer& answer) {
    const timing::CrankPoint& set = answer.firing->set;
    const double per_deg = set.height_per_deg;
    if (!(per_deg > 0.0)) return {};
    const SmallStep step = small_step(answer.units);
    // Where the piston all but stands, a straight line says many times too much.
    constexpr double kStraight = 0.5;  // of the way to where it stands
    if (step.length / per_deg > kStraight * std::min(set.degrees, 180.0 - set.degrees)) return {};
    return {.length = std::string(step.words), .degrees = degrees(step.length / per_deg)};
}

Document firing_section(const TimingAnswer& answer) {
    Document out;
    out.under(figures(answer)).add(shares(answer.firing->set));
    return out.add(Paragraph{kept(answer)});
}

}  // namespace trialfit::paper
