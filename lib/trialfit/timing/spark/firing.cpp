// SPDX-License-Identifier: MIT
#include <algorithm>
#include <array>
#include <cmath>
#include <trialfit/timing/spark/firing.hpp>

namespace trialfit::timing {

namespace {

using trade::StrokeSide;

// What the file says of each of the sizes that trade::TimingPoint shares an angle's doubt among.
std::array<std::string, 5> written_sizes(const Engine& engine) {
    const job::Timing& timing = engine.timing;
    const auto words = [](const std::optional<job::Given>& given) {
        return given ? given->written : std::string();
    };
    return {std::string(), timing.stroke.written, timing.rod.written, words(timing.pin_offset),
            words(timing.plug_tilt)};
}

std::vector<Share> shares_of(const Engine& engine, const trade::TimingPoint& point) {
    const std::array<std::string, 5> names{engine.gauge.empty() ? "reading" : engine.gauge,
                                           "stroke", "rod", "pin_offset", "plug_tilt"};
    const std::array<std::string, 5> written = written_sizes(engine);
    double sum = 0.0;
    for (const trade::AngleShare& each : point.shares)
        sum += std::abs(each.half_width_deg);
    std::vector<Share> shares;
    for (std::size_t i = 0; i < names.size(); ++i) {
        const trade::AngleShare& each = point.shares.at(i);
        if (each.half_width_deg == 0.0) continue;
        const double share = each.sd_deg / point.sd_deg;
        shares.push_back({.of = names.at(i),
                          .written = written.at(i),
                          .half_width_deg = each.half_width_deg,
                          .sd_deg = each.sd_deg,
                          .worst_share = std::abs(each.half_width_deg) / sum,
                          .variance_share = share * share});
    }
    std::stable_sort(shares.begin(), shares.end(), [](const Share& one, const Share& other) {
        return std::abs(one.half_width_deg) > std::abs(other.half_width_deg);
    });
    return shares;
}

CrankPoint point_of(const Engine& engine, const trade::TimingPoint& point) {
    const Range worst{point.worst_least_deg, point.worst_most_deg};
    // Near the top the straight lines that an RSS is made of lead out of what can be.
    const auto within = [&worst](double degrees) {
        return std::clamp(degrees, worst.lo, worst.hi);
    };
    return {
        .degrees = point.degrees,
        .height = point.drop,
        .gauge_reading = point.gauge_reading,
        .height_per_deg = point.mm_per_deg,
        .worst = worst,
        .rss = {within(point.middle_deg - point.rss_deg), within(point.middle_deg + point.rss_deg)},
        .sd_deg = point.sd_deg,
        .shares = shares_of(engine, point)};
}

trade::Result<trade::TimingPoint> set_by_gauge(const Engine& engine, const job::AngleGiven& at) {
    const quantity::Size& size = at.value.size;
    if (at.in == job::AngleIn::degrees)
        return trade::timing_at_degrees(engine.sizes, size.nominal, engine.gauge_half_width,
                                        StrokeSide::before_top);
    if (at.value.gauge) return trade::timing_at_reading(engine.sizes, size, StrokeSide::before_top);
    const auto reading = trade::gauge_reading(size.nominal, engine.sizes.tilt_deg.nominal);
    if (!reading) return reading.why();
    return trade::timing_at_reading(
        engine.sizes, quantity::reading(*reading, engine.gauge_half_width), StrokeSide::before_top);
}

double height_at(const Engine& engine, double before_top_deg) {
    return trade::piston_drop(engine.crank, -before_top_deg);
}

double degrees_at(const Engine& engine, double height) {
    const double within = std::clamp(height, 0.0, trade::stroke_of(engine.crank));
    return *trade::degrees_from_top(engine.crank, within, StrokeSide::before_top);
}

bool within(const Range& inner, const Range& outer) {
    return inner.lo >= outer.lo && inner.hi <= outer.hi;
}

Verdict kept(double nominal, const Range& worst, const Range& allowed) {
    if (!within({nominal, nominal}, allowed)) return Verdict::fails;
    return within(worst, allowed) ? Verdict::holds : Verdict::doubtful;
}

// Whether the gauge keeps a firing point within the limits that it was written with.
void hold_to_limits(const Engine& engine, const quantity::Size& size, Firing& firing) {
    const bool in_degrees = firing.in == job::AngleIn::degrees;
    const Range limits{size.lower, size.upper};
    if (in_degrees) {
        firing.allowed_deg = limits;
        firing.allowed_height = {height_at(engine, limits.lo), height_at(engine, limits.hi)};
    } else {
        firing.allowed_height = limits;
        firing.allowed_deg = {degrees_at(engine, limits.lo), degrees_at(engine, limits.hi)};
    }
    if (engine.gauge.empty()) return;
    const Cosines cosines = cosines_of_tilt(engine);
    const double reading = firing.set.gauge_reading;
    const Range heights{(reading - engine.gauge_half_width) * cosines.least,
                        (reading + engine.gauge_half_width) * cosines.greatest};
    firing.gauge_keeps_it = in_degrees ? kept(firing.set.degrees, firing.set.worst, limits)
                                       : kept(firing.set.height, heights, limits);
}

}  // namespace

trade::Result<Firing> firing(const Engine& of_section, const job::AngleGiven& fire_at) {
    const Engine engine = read_by(of_section, fire_at.value);
    const auto point = set_by_gauge(engine, fire_at);
    if (!point) return point.why();
    Firing out;
    out.written = fire_at.value.written;
    out.in = fire_at.in;
    out.set = point_of(engine, *point);
    out.gauge = engine.gauge;
    out.gauge_half_width = engine.gauge_half_width;
    const quantity::Size& size = fire_at.value.size;
    if (!fire_at.value.gauge && size.lower < size.upper) hold_to_limits(engine, size, out);
    return out;
}

trade::Result<FiresNow> fires_now(const Engine& engine, const job::AngleGiven& given) {
    const quantity::Size& size = given.value.size;
    FiresNow out{.written = given.value.written,
                 .degrees = size.nominal,
                 .height = 0.0,
                 .worst = {size.lower, size.upper}};
    if (given.in == job::AngleIn::length) {
        trade::EngineSizes sizes = engine.sizes;
        // A piston height is along the bore, whatever the plug hole does.
        if (!given.value.gauge) sizes.tilt_deg = quantity::exact(0.0);
        const auto point = trade::timing_at_reading(sizes, size, StrokeSide::before_top);
        if (!point) return point.why();
        out.degrees = point->degrees;
        out.worst = {point->worst_least_deg, point->worst_most_deg};
    }
    out.height = height_at(engine, out.degrees);
    return out;
}

}  // namespace trialfit::timing
