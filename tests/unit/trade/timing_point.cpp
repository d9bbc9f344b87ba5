// SPDX-License-Identifier: MIT
#include <doctest/doctest.h>

#include <cmath>
#include <trialfit/trade/engine/timing_point.hpp>

using namespace trialfit::trade;
using trialfit::quantity::exact;
using trialfit::quantity::reading;

namespace {

// Invented engine.
EngineSizes exactly(double stroke, double rod) {
    return {exact(stroke), exact(rod), exact(0), exact(0)};
}
const EngineSizes kMeasured{reading(43, 0.05), reading(87, 0.3), reading(0, 0.2), reading(10, 3)};

TEST_CASE("an exact engine and gauge leave nothing uncertain") {
    const TimingPoint point =
        *timing_at_reading(exactly(43, 87), exact(1.4), StrokeSide::before_top);
    CHECK(point.degrees ==
          doctest::Approx(*degrees_from_top(*crank_of(43, 87), 1.4, StrokeSide::before_top)));
    CHECK(point.worst_least_deg == point.degrees);
    CHECK(point.worst_most_deg == point.degrees);
    CHECK(point.rss_deg == 0.0);
    CHECK(point.sd_deg == 0.0);
}

TEST_CASE("a hundredth near the top is worth more than a degree, well below it next to nothing") {
    const EngineSizes engine = exactly(43, 87);
    const TimingPoint top = *timing_at_reading(engine, reading(0, 0.01), StrokeSide::before_top);
    CHECK(top.worst_most_deg > 1.0);
    CHECK(top.worst_most_deg < 2.0);
    CHECK(top.worst_least_deg == 0.0);
    const TimingPoint low = *timing_at_reading(engine, reading(1.4, 0.01), StrokeSide::before_top);
    CHECK(low.worst_most_deg - low.worst_least_deg < 0.15);
}

TEST_CASE("the worst case holds every mixture of the sizes, the root sum of squares is within it") {
    const TimingPoint point =
        *timing_at_reading(kMeasured, reading(1.42, 0.02), StrokeSide::before_top);
    CHECK(point.worst_least_deg < point.degrees);
    CHECK(point.worst_most_deg > point.degrees);
    CHECK(point.rss_deg > 0.0);
    CHECK(point.rss_deg < (point.worst_most_deg - point.worst_least_deg) / 2.0);
    CHECK(point.sd_deg == doctest::Approx(point.rss_deg / std::sqrt(3.0)));
    unsigned state = 1;
    const auto between = [&](const trialfit::quantity::Size& size) {
        state = state * 1664525U + 1013904223U;
        return size.lower + (size.upper - size.lower) * (state / 4294967296.0);
    };
    for (int i = 0; i < 2000; ++i) {
        const Crank crank =
            *crank_of(between(kMeasured.stroke), between(kMeasured.rod), between(kMeasured.offset));
        const double drop =
            *drop_of_reading(between(reading(1.42, 0.02)), between(kMeasured.tilt_deg));
        const double degrees = *degrees_from_top(crank, drop, StrokeSide::before_top);
        CHECK(degrees >= point.worst_least_deg - 1e-12);
        CHECK(degrees <= point.worst_most_deg + 1e-12);
    }
}

TEST_CASE("shares are named and signed, and small ones are the slopes") {
    const EngineSizes engine{exact(43), reading(87, 1e-3), reading(0.5, 1e-3), exact(12)};
    const TimingPoint point = *timing_at_reading(engine, reading(1.5, 1e-3), StrokeSide::after_top);
    const double drop = *drop_of_reading(1.5, 12);
    const auto slope = [](const auto& degrees_at) {
        constexpr double h = 1e-4;
        return (degrees_at(h) - degrees_at(-h)) / (2 * h);
    };
    const auto degrees = [](double rod, double offset, double height) {
        return *degrees_from_top(*crank_of(43, rod, offset), height, StrokeSide::after_top);
    };
    const double per_drop = slope([&](double h) { return degrees(87, 0.5, drop + h); });
    const double per_rod = slope([&](double h) { return degrees(87 + h, 0.5, drop); });
    const double per_offset = slope([&](double h) { return degrees(87, 0.5 + h, drop); });
    CHECK(point.shares[0].of == "reading");
    CHECK(point.shares[0].half_width_deg ==
          doctest::Approx(1e-3 * per_drop * drop / 1.5).epsilon(1e-5));
    CHECK(point.shares[1].half_width_deg == 0.0);
    CHECK(point.shares[2].half_width_deg == doctest::Approx(1e-3 * per_rod).epsilon(1e-4));
    CHECK(point.shares[3].half_width_deg == doctest::Approx(1e-3 * per_offset).epsilon(1e-4));
    CHECK(point.shares[4].of == "tilt");
    CHECK(point.shares[4].half_width_deg == 0.0);
}

TEST_CASE("degrees to reading to degrees, through a tilted plug hole") {
    for (const StrokeSide side : {StrokeSide::before_top, StrokeSide::after_top}) {
        const TimingPoint set = *timing_at_degrees(kMeasured, 17.5, 0.02, side);
        const TimingPoint back =
            *timing_at_reading(kMeasured, reading(set.gauge_reading, 0.02), side);
        CHECK(set.degrees == 17.5);
        CHECK(back.degrees == doctest::Approx(17.5).epsilon(1e-13));
        CHECK(set.gauge_reading > set.drop);
        CHECK(back.worst_most_deg == set.worst_most_deg);
    }
}

TEST_CASE("a tilt that may be either way is not taken for none") {
    const EngineSizes engine{exact(43), exact(87), exact(0), reading(0, 20)};
    const TimingPoint point = *timing_at_reading(engine, exact(1.4), StrokeSide::before_top);
    CHECK(point.worst_least_deg < point.degrees - 0.4);
    CHECK(point.worst_most_deg == point.degrees);
}

TEST_CASE("a nominal outside its own limits is in no range, and the spread is about the middle") {
    const EngineSizes engine{{.nominal = 43.0, .lower = 42.7, .upper = 42.9, .spread = {}},
                             exact(87),
                             exact(0),
                             exact(0)};
    const auto degrees = [](double stroke) {
        return *degrees_from_top(*crank_of(stroke, 87), 1.4, StrokeSide::before_top);
    };
    const TimingPoint point = *timing_at_reading(engine, exact(1.4), StrokeSide::before_top);
    CHECK(point.degrees == doctest::Approx(degrees(43.0)).epsilon(1e-13));
    CHECK(point.middle_deg == doctest::Approx(degrees(42.8)).epsilon(1e-13));
    CHECK(point.worst_least_deg == doctest::Approx(degrees(42.9)).epsilon(1e-13));
    CHECK(point.worst_most_deg == doctest::Approx(degrees(42.7)).epsilon(1e-13));
    CHECK(point.degrees < point.worst_least_deg);
}

TEST_CASE("what cannot be read is refused") {
    CHECK(timing_at_reading(exactly(43, 21), exact(1), StrokeSide::before_top).reason() ==
          "the rod (21) must be longer than half the stroke plus the offset (21.5)");
    CHECK(timing_at_reading(exactly(43, 87), exact(43.5), StrokeSide::before_top).reason() ==
          "a piston height of 43.5 below the top lies beyond the stroke of 43");
    CHECK(timing_at_degrees(exactly(43, 87), 190, 0.01, StrokeSide::before_top).reason() ==
          "crank angle from the top must lie between 0 and 180, not 190");
    const EngineSizes sideways{exact(43), exact(87), exact(0), exact(95)};
    CHECK(timing_at_reading(sideways, exact(1), StrokeSide::before_top).reason() ==
          "the plug hole's tilt must be less than 90 degrees");
    CHECK(gauge_reading(-1, 0).reason() ==
          "piston height below the top cannot be negative, and is -1");
}

}  // namespace
