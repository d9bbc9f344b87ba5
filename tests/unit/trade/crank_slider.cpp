// SPDX-License-Identifier: MIT
#include <doctest/doctest.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <functional>
#include <limits>
#include <trialfit/trade/engine/crank_slider.hpp>

using namespace trialfit::trade;

namespace {

// A grid of engines: models to ships, short and long rods, offset either way.
void for_each_engine(const std::function<void(const Crank&)>& body) {
    for (const double stroke : {8.0, 40.0, 43.0, 54.0, 90.0, 1500.0}) {
        for (const double rod_ratio : {1.05, 1.5, 1.75, 2.0, 2.6, 6.0}) {
            for (const double offset_share : {-0.04, -0.01, 0.0, 0.02, 0.05}) {
                const Crank crank = *crank_of(stroke, stroke * rod_ratio, stroke * offset_share);
                CAPTURE(stroke);
                CAPTURE(rod_ratio);
                CAPTURE(offset_share);
                body(crank);
            }
        }
    }
}

constexpr std::array kSides{StrokeSide::before_top, StrokeSide::after_top};

double signed_deg(double degrees, StrokeSide side) {
    return side == StrokeSide::after_top ? degrees : -degrees;
}

TEST_CASE("timing there and back: angle to height to angle, within 1e-12 degrees") {
    double worst = 0.0;
    for_each_engine([&](const Crank& crank) {
        for (const StrokeSide side : kSides) {
            for (int i = 1; i <= 170; ++i) {
                // Crowded towards the top, where heights hardly change.
                const double degrees = 170.0 * std::pow(i / 170.0, 3.0);
                const double drop = piston_drop(crank, signed_deg(degrees, side));
                const double back = *degrees_from_top(crank, drop, side);
                worst = std::max(worst, std::abs(back - degrees));
            }
        }
    });
    CHECK(worst < 1e-12);
}

TEST_CASE("timing there and back: height to angle to height, within 1e-12 of the stroke") {
    double worst = 0.0;
    for_each_engine([&](const Crank& crank) {
        const double stroke = stroke_of(crank);
        for (const StrokeSide side : kSides) {
            for (int i = 0; i <= 400; ++i) {
                // Quartic spacing, so that the neighbourhood of the top is crowded.
                const double share = std::pow(i / 400.0, 4.0);
                const double drop = stroke * share;
                const double degrees = *degrees_from_top(crank, drop, side);
                const double back = piston_drop(crank, signed_deg(degrees, side));
                worst = std::max(worst, std::abs(back - drop) / stroke);
            }
        }
    });
    CHECK(worst < 1e-12);
}

TEST_CASE("near the top, heights of a billionth of the stroke still give their angle") {
    const Crank crank = *crank_of(54, 110, 1.5);
    for (const double drop : {1e-15, 1e-12, 1e-9, 1e-6}) {
        CAPTURE(drop);
        const double degrees = *degrees_from_top(crank, drop, StrokeSide::before_top);
        CHECK(piston_drop(crank, -degrees) == doctest::Approx(drop).epsilon(1e-12));
    }
    CHECK(*degrees_from_top(crank, 0.0, StrokeSide::before_top) == 0.0);
}

TEST_CASE("the stroke asked for is the piston's travel, top and bottom are its ends") {
    for_each_engine([](const Crank& crank) {
        const double stroke = stroke_of(crank);
        const double down = down_stroke_deg(crank);
        CHECK(stroke_of(*crank_of(stroke, crank.rod, crank.offset)) ==
              doctest::Approx(stroke).epsilon(1e-14));
        CHECK(crank_of(stroke, crank.rod, crank.offset)->radius ==
              doctest::Approx(crank.radius).epsilon(1e-14));
        CHECK(piston_drop(crank, down) == doctest::Approx(stroke).epsilon(1e-14));
        CHECK(piston_drop(crank, down - 360.0) == doctest::Approx(stroke).epsilon(1e-14));
        CHECK(piston_drop(crank, 0.0) == 0.0);
        CHECK(std::abs(crank_motion(crank, 0.0, 0.0).mm_per_deg) < 1e-14 * stroke);
        CHECK(std::abs(crank_motion(crank, down, 0.0).mm_per_deg) < 1e-13 * stroke);
        CHECK(*degrees_from_top(crank, stroke, StrokeSide::after_top) ==
              doctest::Approx(down).epsilon(1e-7));
        CHECK(*degrees_from_top(crank, stroke, StrokeSide::before_top) ==
              doctest::Approx(360.0 - down).epsilon(1e-7));
    });
}

TEST_CASE("the piston only falls from top to bottom") {
    for_each_engine([](const Crank& crank) {
        double before = -1.0;
        const double down = down_stroke_deg(crank);
        for (int i = 0; i <= 100; ++i) {
            const double drop = piston_drop(crank, down * i / 100.0);
            CHECK(drop > before);
            before = drop;
        }
    });
}

TEST_CASE("an offset to the other side mirrors before and after") {
    for_each_engine([](const Crank& crank) {
        const Crank mirrored{crank.radius, crank.rod, -crank.offset};
        for (const double degrees : {3.0, 20.0, 77.0, 150.0})
            CHECK(piston_drop(crank, degrees) ==
                  doctest::Approx(piston_drop(mirrored, -degrees)).epsilon(1e-14));
        CHECK(top_q_deg(crank) == -top_q_deg(mirrored));
    });
}

TEST_CASE("speed is the derivative of height, acceleration that of speed") {
    constexpr double kStep = 1e-4;
    for_each_engine([](const Crank& crank) {
        for (const double at : {-140.0, -60.0, -15.0, 0.5, 30.0, 90.0, 130.0}) {
            CAPTURE(at);
            const CrankMotion now = crank_motion(crank, at, 6000);
            const double slope =
                (piston_drop(crank, at + kStep) - piston_drop(crank, at - kStep)) / (2 * kStep);
            CHECK(now.mm_per_deg == doctest::Approx(slope).epsilon(1e-6));
            // 6000 rpm turns 36 degrees in a millisecond.
            CHECK(now.speed_m_s == doctest::Approx(now.mm_per_deg * 36.0).epsilon(1e-12));
            const double gain = crank_motion(crank, at + kStep, 6000).speed_m_s -
                                crank_motion(crank, at - kStep, 6000).speed_m_s;
            const double acceleration = gain / (2 * kStep) * 36000.0;
            CHECK(std::abs(now.acceleration_m_s2 - acceleration) <
                  1e-6 * 36000.0 * stroke_of(crank));
        }
    });
}

TEST_CASE("one height before and after the top spans twice its half span") {
    for_each_engine([](const Crank& crank) {
        for (const double share : {0.01, 0.1, 0.5, 0.9}) {
            const double drop = stroke_of(crank) * share;
            const double span = *degrees_from_top(crank, drop, StrokeSide::before_top) +
                                *degrees_from_top(crank, drop, StrokeSide::after_top);
            CHECK(drop_of_half_span(crank, span / 2.0) == doctest::Approx(drop).epsilon(1e-12));
        }
    });
}

TEST_CASE("the piston is nowhere faster than where it is fastest") {
    for_each_engine([](const Crank& crank) {
        const FastestPiston top = fastest_piston(crank, 5000);
        CHECK(top.after_top_deg > 40.0);
        CHECK(top.after_top_deg < 95.0);
        for (int at = 0; at < 180; at += 3)
            CHECK(crank_motion(crank, at, 5000).speed_m_s <= top.motion.speed_m_s * (1.0 + 1e-12));
    });
}

TEST_CASE("what is no engine is refused") {
    CHECK(crank_of(54, 27).reason() ==
          "the rod (27) must be longer than half the stroke plus the offset (27)");
    CHECK(crank_of(54, 28, -1).reason() ==
          "the rod (28) must be longer than half the stroke plus the offset (28)");
    CHECK(crank_of(0, 28).reason() == "stroke must be greater than 0, not 0");
    CHECK_FALSE(crank_of(54, -28).ok());
    CHECK_FALSE(crank_of(std::numeric_limits<double>::quiet_NaN(), 100).ok());
    CHECK(crank_of(54, 28.1, 1).ok());
    const Crank crank = *crank_of(54, 110);
    CHECK(degrees_from_top(crank, 54.01, StrokeSide::after_top).reason() ==
          "a piston height of 54.01 below the top lies beyond the stroke of 54");
    CHECK_FALSE(degrees_from_top(crank, -1, StrokeSide::after_top).ok());
    CHECK(degrees_from_top(crank, 54, StrokeSide::after_top).ok());
}

}  // namespace
