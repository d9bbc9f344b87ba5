// SPDX-License-Identifier: MIT
#include <algorithm>
#include <cmath>
#include <numbers>
#include <trialfit/trade/domain.hpp>
#include <trialfit/trade/engine/timing_point.hpp>

namespace trialfit::trade {
namespace {

using quantity::Size;

constexpr std::size_t kSizes = 5;
constexpr std::array<std::string_view, kSizes> kNames{"reading", "stroke", "rod", "offset", "tilt"};
using Values = std::array<double, kSizes>;

double cosine_of_deg(double degrees) {
    return std::cos(degrees * std::numbers::pi / 180.0);
}

Domain tilt_domain(double tilt_deg) {
    return Domain().that(std::abs(tilt_deg) < 90.0,
                         "the plug hole's tilt must be less than 90 degrees");
}

// Angle from the top at one set of values; a reading off the stroke is held at its end.
Result<double> angle_of(const Values& at, StrokeSide side) {
    const Result<Crank> crank = crank_of(at[1], at[2], at[3]);
    if (!crank) return crank.why();
    if (const Domain domain = tilt_domain(at[4]); !domain) return domain.why();
    const double drop = at[0] * cosine_of_deg(at[4]);
    return degrees_from_top(*crank, std::clamp(drop, 0.0, stroke_of(*crank)), side);
}

Values middles(const std::array<Size, kSizes>& sizes) {
    Values at{};
    for (std::size_t i = 0; i < kSizes; ++i)
        at[i] = sizes[i].middle();
    return at;
}

struct Extremes {
    double least = 0.0;
    double most = 0.0;
};

// The angle goes one way with each size but, about no tilt, the tilt: the middles catch that. The
// nominal does not enter: it may lie outside its own limits.
Result<Extremes> extremes(const std::array<Size, kSizes>& sizes, double middle_deg,
                          StrokeSide side) {
    constexpr int kCombinations = 3 * 3 * 3 * 3 * 3;
    Extremes found{middle_deg, middle_deg};
    for (int combination = 0; combination < kCombinations; ++combination) {
        Values at{};
        int rest = combination;
        for (std::size_t i = 0; i < kSizes; ++i, rest /= 3) {
            const std::array choices{sizes[i].lower, sizes[i].middle(), sizes[i].upper};
            at[i] = choices[static_cast<std::size_t>(rest % 3)];
        }
        const Result<double> angle = angle_of(at, side);
        if (!angle) return angle.why();
        found.least = std::min(found.least, *angle);
        found.most = std::max(found.most, *angle);
    }
    return found;
}

// One size at its limits, the others in the middle; every combination is known to be an engine.
AngleShare share_of(const std::array<Size, kSizes>& sizes, std::size_t which, StrokeSide side) {
    Values low = middles(sizes);
    Values high = low;
    low[which] = sizes[which].lower;
    high[which] = sizes[which].upper;
    const double half_width_deg = (*angle_of(high, side) - *angle_of(low, side)) / 2.0;
    const double half_width = sizes[which].half_width();
    const double sd_deg =
        half_width > 0.0 ? std::abs(half_width_deg) * sizes[which].sd() / half_width : 0.0;
    return {kNames[which], half_width_deg, sd_deg};
}

}  // namespace

Result<double> gauge_reading(double drop, double tilt_deg) {
    const Domain domain = tilt_domain(tilt_deg).not_negative("piston height below the top", drop);
    if (!domain) return domain.why();
    return drop / cosine_of_deg(tilt_deg);
}

Result<double> drop_of_reading(double reading, double tilt_deg) {
    const Domain domain = tilt_domain(tilt_deg).not_negative("gauge reading", reading);
    if (!domain) return domain.why();
    return reading * cosine_of_deg(tilt_deg);
}

Result<TimingPoint> timing_at_reading(const EngineSizes& engine, const Size& reading,
                                      StrokeSide side) {
    const Result<Crank> crank =
        crank_of(engine.stroke.nominal, engine.rod.nominal, engine.offset.nominal);
    if (!crank) return crank.why();
    const Result<double> drop = drop_of_reading(reading.nominal, engine.tilt_deg.nominal);
    if (!drop) return drop.why();
    const Result<double> degrees = degrees_from_top(*crank, *drop, side);
    if (!degrees) return degrees.why();
    const std::array sizes{reading, engine.stroke, engine.rod, engine.offset, engine.tilt_deg};
    const Result<double> middle = angle_of(middles(sizes), side);
    if (!middle) return middle.why();
    const Result<Extremes> worst = extremes(sizes, *middle, side);
    if (!worst) return worst.why();

    TimingPoint point;
    point.degrees = *degrees;
    point.middle_deg = *middle;
    point.drop = *drop;
    point.gauge_reading = reading.nominal;
    const double after_top_deg = side == StrokeSide::after_top ? *degrees : -*degrees;
    point.mm_per_deg = std::abs(crank_motion(*crank, after_top_deg, 0.0).mm_per_deg);
    point.worst_least_deg = worst->least;
    point.worst_most_deg = worst->most;
    for (std::size_t i = 0; i < kSizes; ++i) {
        point.shares[i] = share_of(sizes, i, side);
        point.rss_deg = std::hypot(point.rss_deg, point.shares[i].half_width_deg);
        point.sd_deg = std::hypot(point.sd_deg, point.shares[i].sd_deg);
    }
    return point;
}

Result<TimingPoint> timing_at_degrees(const EngineSizes& engine, double degrees,
                                      double gauge_half_width, StrokeSide side) {
    const Result<Crank> crank =
        crank_of(engine.stroke.nominal, engine.rod.nominal, engine.offset.nominal);
    if (!crank) return crank.why();
    const double down = down_stroke_deg(*crank);
    const double reach_deg = side == StrokeSide::after_top ? down : 360.0 - down;
    const Domain domain = Domain()
                              .within("crank angle from the top", degrees, 0.0, reach_deg)
                              .not_negative("the gauge's half-width", gauge_half_width);
    if (!domain) return domain.why();
    const double drop = piston_drop(*crank, side == StrokeSide::after_top ? degrees : -degrees);
    const Result<double> reading =
        gauge_reading(std::min(drop, stroke_of(*crank)), engine.tilt_deg.nominal);
    if (!reading) return reading.why();
    Result<TimingPoint> point =
        timing_at_reading(engine, quantity::reading(*reading, gauge_half_width), side);
    if (!point) return point;
    TimingPoint exactly = *point;
    exactly.degrees = degrees;  // free of the there-and-back of the reading
    return exactly;
}

}  // namespace trialfit::trade
