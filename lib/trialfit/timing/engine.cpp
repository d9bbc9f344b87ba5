// SPDX-License-Identifier: MIT
#include <algorithm>
#include <cmath>
#include <numbers>
#include <trialfit/timing/engine.hpp>
#include <utility>

namespace trialfit::timing {

namespace {

double cosine_of_deg(double degrees) {
    return std::cos(degrees * std::numbers::pi / 180.0);
}

Engine take_gauge(Engine engine, std::optional<int> which) {
    if (!which) return engine;
    const job::Gauge& gauge = engine.gauges.at(static_cast<std::size_t>(*which));
    engine.gauge = gauge.name;
    engine.gauge_half_width = gauge.half_width;
    return engine;
}

}  // namespace

trade::Result<Engine> engine_of(const job::Job& job, const job::Timing& timing) {
    const auto or_none = [](const std::optional<job::Given>& given) {
        return given ? given->size : quantity::exact(0.0);
    };
    const trade::EngineSizes sizes{.stroke = timing.stroke.size,
                                   .rod = timing.rod.size,
                                   .offset = or_none(timing.pin_offset),
                                   .tilt_deg = or_none(timing.plug_tilt)};
    const auto crank =
        trade::crank_of(sizes.stroke.nominal, sizes.rod.nominal, sizes.offset.nominal);
    if (!crank) return crank.why();
    Engine engine{.timing = timing,
                  .gauges = job.gauges,
                  .sizes = sizes,
                  .crank = *crank,
                  .units = job.units,
                  .gauge = {},
                  .gauge_half_width = 0.0};
    return take_gauge(std::move(engine), timing.gauge);
}

Engine read_by(Engine engine, const job::Given& given) {
    return take_gauge(std::move(engine), given.gauge);
}

Cosines cosines_of_tilt(const Engine& engine) {
    const quantity::Size& tilt = engine.sizes.tilt_deg;
    const double low = cosine_of_deg(tilt.lower);
    const double high = cosine_of_deg(tilt.upper);
    const bool upright_within = tilt.lower <= 0.0 && tilt.upper >= 0.0;
    return {.least = std::min(low, high), .greatest = upright_within ? 1.0 : std::max(low, high)};
}

}  // namespace trialfit::timing
