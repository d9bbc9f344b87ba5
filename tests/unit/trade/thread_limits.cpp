// SPDX-License-Identifier: MIT
#include <doctest/doctest.h>

#include <array>
#include <cmath>
#include <string>
#include <trialfit/trade/thread/limits.hpp>
#include <trialfit/trade/thread/profile.hpp>
#include <trialfit/trade/thread/tolerance.hpp>

namespace trialfit::trade {
namespace {

ThreadLimits limits_of(const std::string& designation) {
    return thread_limits(thread(designation).value()).value();
}

// In ten-thousandths of an inch.
long tenths(std::optional<double> mm) {
    return std::lround(mm.value() / 25.4 * 1e4);
}

}  // namespace

// ASME B1.1 tables, from memory.
TEST_CASE("unified classes 1 and 3, and a numbered size") {
    const auto a1 = limits_of("1/4-20 UNC-1A");
    CHECK(tenths(a1.major.min_mm) == 2367);
    CHECK(tenths(a1.pitch.min_mm) == 2108);
    const auto a2 = limits_of("1/4-20 UNC-2A");
    CHECK(tenths(a2.major.max_mm) == 2489);
    CHECK(tenths(a2.major.min_mm) == 2408);
    CHECK(tenths(a2.pitch.max_mm) == 2164);
    CHECK(tenths(a2.pitch.min_mm) == 2127);
    const auto a3 = limits_of("1/4-20 UNC-3A");
    CHECK(tenths(a3.major.max_mm) == 2500);
    CHECK(tenths(a3.pitch.min_mm) == 2147);
    CHECK(tenths(limits_of("1/4-20 UNC-1B").pitch.max_mm) == 2248);
    const auto b3 = limits_of("1/4-20 UNC-3B");
    CHECK(tenths(b3.pitch.max_mm) == 2211);
    CHECK(tenths(b3.minor.min_mm) == 1960);
    CHECK(tenths(b3.minor.max_mm) == 2067);
    const auto number = limits_of("#10-32 UNF-2B");
    CHECK(tenths(number.pitch.min_mm) == 1697);
    CHECK(tenths(number.pitch.max_mm) == 1736);
    CHECK(tenths(number.minor.max_mm) == 1640);
    CHECK(tenths(limits_of("#10-24 UNC-2B").minor.max_mm) == 1560);
    CHECK(tenths(limits_of("#0-80 UNF-2B").minor.max_mm) == 514);
    CHECK(tenths(limits_of("1-8 UNC-3B").minor.max_mm) == 8797);
    CHECK_FALSE(number.major.max_mm);
    CHECK_FALSE(a2.minor.min_mm);
}

// ISO 965-2 tables, from memory.
TEST_CASE("metric limits beyond the published cases") {
    const auto bolt = limits_of("M48-6g");
    CHECK(bolt.pitch.max_mm == doctest::Approx(44.681).epsilon(1e-12));
    CHECK(bolt.pitch.min_mm == doctest::Approx(44.431).epsilon(1e-12));
    CHECK(limits_of("M48-6H").pitch.max_mm == doctest::Approx(45.087).epsilon(1e-12));
    const auto loose = limits_of("M10-6G");
    CHECK(loose.major.min_mm == doctest::Approx(10.032).epsilon(1e-12));
    CHECK(loose.pitch.min_mm == doctest::Approx(9.058).epsilon(1e-12));
    CHECK_FALSE(loose.major.max_mm);
}

TEST_CASE("the usual class stands in for one that is not named") {
    const auto metric = thread("M10").value();
    CHECK(usual_class(metric, false) == thread_class("6g").value());
    CHECK(usual_class(metric, true) == thread_class("6H").value());
    CHECK(usual_class(thread("M1.4").value(), false) == thread_class("6h").value());
    CHECK(usual_class(thread("M1.4").value(), true) == thread_class("5H").value());
    CHECK(usual_class(thread("3/8-24 UNF").value(), true) == thread_class("2B").value());
}

TEST_CASE("limits that the standards do not set are refused with the mend") {
    CHECK(thread_limits(thread("M10").value()).reason() ==
          "'M10' names no tolerance class; add one, as in M10-6g or 3/8-24 UNF-2A");
    CHECK(thread_limits(thread("M10").value(), thread_class("2A").value()).reason() ==
          "'M10' is metric: its classes are like 6g and 6H");
    CHECK(thread_limits(thread("3/8-24 UNF").value(), thread_class("6g").value()).reason() ==
          "'3/8-24 UNF' is unified: its classes are 1A to 3A and 1B to 3B");
    CHECK(thread_limits(thread("M400x6-6g").value()).reason() ==
          "ISO 965 covers diameters 0.99 to 355 mm and pitches 0.2 to 8 mm, not 400 x 6; state the "
          "limits themselves");
    CHECK(thread_limits(thread("7-4 UN-2A").value()).reason() ==
          "ASME B1.1 covers diameters 0.06 to 6 inches and up to 80 threads per inch, not 7 inches "
          "with 4 threads; state the limits themselves");
    CHECK(thread_limits(thread("6-4 UN-2A").value()).ok());
    CHECK(thread_limits(thread("#0-80 UNF-2B").value()).ok());
    CHECK_FALSE(thread_limits(thread("1/2-81 UNS-2B").value()).ok());
    CHECK(thread_limits(thread("M2x0.4-6e").value()).reason() ==
          "ISO 965 has no position e at a pitch of 0.4 mm; take g or h");
    CHECK(thread_deviation_um('k', 1.0).reason() ==
          "'k' is no thread position; write e, f, g or h for a bolt, G or H for a nut");
    CHECK_FALSE(thread_deviation_um('g', 9.0).ok());
    CHECK(thread_tolerance_um(ThreadTolerance::bolt_major, 5, 1.0, 10.0).reason() ==
          "ISO 965 has no grade 5 for this diameter; take grade 6");
    CHECK_FALSE(thread_tolerance_um(ThreadTolerance::nut_pitch, 3, 1.0, 10.0).ok());
    CHECK_FALSE(thread_tolerance_um(ThreadTolerance::bolt_pitch, 10, 1.0, 10.0).ok());
    CHECK_FALSE(thread_tolerance_um(ThreadTolerance::bolt_pitch, 6, 1.0, 0.9).ok());
    CHECK_FALSE(engagement_group(1.25, 30.0).ok());
}

TEST_CASE("a bolt enters its nut, whatever the size and the classes") {
    constexpr std::array kMetric{"M1.6", "M3",  "M6",     "M10x1",  "M14x1.5", "M27x1.25",
                                 "M30",  "M64", "M100x4", "M200x6", "M300x8"};
    constexpr std::array kBolts{"4h", "6h", "6g", "5g6g", "8g", "9g8g", "3h4h"};
    constexpr std::array kNuts{"4H", "5H", "6H", "7H", "8H", "6G", "4H5H"};
    for (const char* size : kMetric) {
        const ThreadForm form = thread(size).value();
        for (const char* bolt_class : kBolts)
            for (const char* nut_class : kNuts) {
                CAPTURE(size);
                CAPTURE(bolt_class);
                CAPTURE(nut_class);
                const auto bolt = thread_limits(form, thread_class(bolt_class).value()).value();
                const auto nut = thread_limits(form, thread_class(nut_class).value()).value();
                CHECK(*bolt.pitch.min_mm < *bolt.pitch.max_mm);
                CHECK(*bolt.pitch.max_mm <= *nut.pitch.min_mm);
                CHECK(*nut.pitch.min_mm < *nut.pitch.max_mm);
                CHECK(*bolt.major.max_mm <= *nut.major.min_mm);
                CHECK(*bolt.minor.max_mm <= *nut.minor.min_mm);
                CHECK(*nut.minor.max_mm < *bolt.major.min_mm);
            }
    }
    for (const char* size : {"#0-80", "#10-32", "1/4-28", "1/2-16 UN", "1-1/8-12", "4-4 UNC"}) {
        CAPTURE(size);
        const ThreadForm form = thread(size).value();
        for (const int unified : {1, 2, 3}) {
            const auto bolt = thread_limits(form, {false, unified, {}, {}}).value();
            const auto nut = thread_limits(form, {true, unified, {}, {}}).value();
            CHECK(*bolt.pitch.max_mm <= *nut.pitch.min_mm);
            CHECK(*bolt.pitch.min_mm < *bolt.pitch.max_mm);
            CHECK(*nut.minor.min_mm < *nut.minor.max_mm);
            CHECK(*bolt.minor.max_mm < *nut.minor.min_mm);
        }
    }
}

}  // namespace trialfit::trade
