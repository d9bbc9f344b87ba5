// SPDX-License-Identifier: MIT
#include <doctest/doctest.h>

#include <cmath>
#include <trialfit/trade/engine/timing_top.hpp>

using namespace trialfit::trade;

namespace {

TEST_CASE("two good readings give the true top, offset or not") {
    for (const double offset : {-2.0, 0.0, 1.5}) {
        for (const double drop : {0.5, 4.0, 15.0}) {
            CAPTURE(offset);
            CAPTURE(drop);
            const Crank crank = *crank_of(54, 110, offset);
            constexpr double kTop = 123.4;
            const double before = kTop - *degrees_from_top(crank, drop, StrokeSide::before_top);
            const double after = kTop + *degrees_from_top(crank, drop, StrokeSide::after_top);
            const TopByStops top = *top_by_stops(crank, before, after, 0, 0);
            CHECK(top.top_deg == doctest::Approx(kTop).epsilon(1e-12));
            CHECK(top.drop == doctest::Approx(drop).epsilon(1e-9));
            CHECK(top.worst_deg == doctest::Approx(0.0));
            CHECK((offset == 0.0) == (std::abs(top.middle_deg - kTop) < 1e-9));
        }
    }
}

TEST_CASE("a stop well below the top finds it better than one near it, and than dwell") {
    const Crank crank = *crank_of(43, 87);
    const TopByStops high = *top_by_stops(crank, -5, 5, 0.5, 0.05);
    const TopByStops low = *top_by_stops(crank, -40, 40, 0.5, 0.05);
    CHECK(low.worst_deg < high.worst_deg);
    CHECK(low.worst_deg ==
          doctest::Approx(0.5 + 0.05 / crank_motion(crank, 40, 0).mm_per_deg).epsilon(1e-3));
    CHECK(low.sd_deg < low.worst_deg);
    const TopByDwell dwell = *top_by_dwell(crank, 0.05);
    CHECK(dwell.before_deg > low.worst_deg);
    CHECK(dwell.sd_deg == doctest::Approx(dwell.before_deg / std::sqrt(3.0)));
}

TEST_CASE("wheel errors alone average out as two readings do") {
    const TopByStops top = *top_by_stops(*crank_of(43, 87), -30, 30, 0.5, 0);
    CHECK(top.worst_deg == doctest::Approx(0.5));
    CHECK(top.sd_deg == doctest::Approx(0.5 / std::sqrt(6.0)));
}

TEST_CASE("dwell of an offset engine is uneven") {
    const TopByDwell dwell = *top_by_dwell(*crank_of(54, 110, 1.5), 0.01);
    CHECK(dwell.before_deg < dwell.after_deg);
    CHECK(dwell.before_deg > 1.0);
    CHECK(top_by_dwell(*crank_of(54, 110), 0)->before_deg == 0.0);
}

TEST_CASE("readings the wrong way round are refused") {
    const Crank crank = *crank_of(43, 87);
    CHECK(top_by_stops(crank, 20, -20, 0, 0).reason() ==
          "the reading after the top must come after the one before it, by less than a turn");
    CHECK_FALSE(top_by_stops(crank, 0, 360, 0, 0).ok());
    CHECK(top_by_stops(crank, -20, 20, -1, 0).reason() ==
          "the wheel's half-width cannot be negative, and is -1");
    CHECK_FALSE(top_by_dwell(crank, 50).ok());
}

}  // namespace
