// SPDX-License-Identifier: MIT
#include <cmath>
#include <trialfit/timing/spark/top.hpp>
#include <trialfit/trade/engine/timing_top.hpp>

namespace trialfit::timing {

namespace {

double uniform_sd(double half_width) {
    return half_width / std::sqrt(3.0);
}

// One more reading of the wheel lays a mark off from the top that was found.
void add_setting(FoundTop& top, double wheel_deg) {
    top.set_worst_deg = top.worst_deg + wheel_deg;
    top.set_sd_deg = std::hypot(top.sd_deg, uniform_sd(wheel_deg));
}

}  // namespace

trade::Result<FoundTop> top_by_stops(const Engine& engine, const job::StopReadings& stops) {
    const double holds = stops.holds.value_or(engine.gauge_half_width);
    const auto found = trade::top_by_stops(engine.crank, stops.before_deg, stops.after_deg,
                                           stops.wheel_deg, holds);
    if (!found) return found.why();
    FoundTop top{.top_deg = found->top_deg,
                 .middle_deg = found->middle_deg,
                 .worst_deg = found->worst_deg,
                 .sd_deg = found->sd_deg,
                 .height = found->drop,
                 .holds = holds};
    add_setting(top, stops.wheel_deg);
    return top;
}

trade::Result<FoundTop> top_by_dwell(const Engine& engine, const job::DwellReadings& dwell) {
    const double half_deg = (dwell.to_deg - dwell.from_deg) / 2.0;
    FoundTop top;
    top.middle_deg = dwell.from_deg + half_deg;
    top.top_deg = top.middle_deg;
    if (half_deg > 0.0) {
        // Equal heights at both ends: an offset leans their middle off the top.
        const auto leaned =
            trade::top_by_stops(engine.crank, dwell.from_deg, dwell.to_deg, dwell.wheel_deg, 0.0);
        if (!leaned) return leaned.why();
        top.top_deg = leaned->top_deg;
    }
    top.worst_deg = half_deg + std::abs(top.top_deg - top.middle_deg) + dwell.wheel_deg;
    top.sd_deg = std::hypot(uniform_sd(half_deg), uniform_sd(dwell.wheel_deg) / std::sqrt(2.0));
    add_setting(top, dwell.wheel_deg);
    return top;
}

trade::Result<std::vector<GaugeDwell>> gauge_dwells(const Engine& engine) {
    std::vector<GaugeDwell> dwells;
    if (engine.gauge.empty()) {
        for (const double half_width_mm : {0.01, 0.05})
            dwells.push_back(
                {.half_width = quantity::convert(half_width_mm, quantity::Unit::mm, engine.units)});
    } else {
        dwells.push_back({.gauge = engine.gauge, .half_width = engine.gauge_half_width});
    }
    for (GaugeDwell& each : dwells) {
        const auto shows = trade::drop_of_reading(each.half_width, engine.sizes.tilt_deg.nominal);
        if (!shows) return shows.why();
        const auto dwell = trade::top_by_dwell(engine.crank, *shows);
        if (!dwell) return dwell.why();
        each.before_deg = dwell->before_deg;
        each.after_deg = dwell->after_deg;
    }
    return dwells;
}

}  // namespace trialfit::timing
