// SPDX-License-Identifier: MIT
#include <doctest/doctest.h>

#include <trialfit/trade/engine/timing_curve.hpp>

using namespace trialfit::trade;

namespace {

const Crank kCrank = *crank_of(43, 87);

TEST_CASE("a curve is straight between its points and flat beyond them") {
    const AdvanceCurve curve = *AdvanceCurve::of({{1000, 2}, {3000, 10}, {8000, -5}});
    CHECK(curve.degrees_at(0) == 2);
    CHECK(curve.degrees_at(1000) == 2);
    CHECK(curve.degrees_at(2000) == doctest::Approx(6));
    CHECK(curve.degrees_at(3000) == 10);
    CHECK(curve.degrees_at(5500) == doctest::Approx(2.5));
    CHECK(curve.degrees_at(9000) == -5);
    CHECK(curve.covers(1000));
    CHECK_FALSE(curve.covers(9000));
}

TEST_CASE("fixed advance and curves add up, in degrees, millimetres and milliseconds") {
    const AdvanceCurve one = *AdvanceCurve::of({{1000, 0}, {6000, -8}});
    const AdvanceCurve other = *AdvanceCurve::of({{2000, 3}});
    const auto rows = *advance_table(kCrank, 18, {one, other});
    REQUIRE(rows.size() == 3);
    CHECK(rows[0].rpm == 1000);
    CHECK(rows[0].degrees == doctest::Approx(21));
    CHECK_FALSE(rows[0].covered);
    CHECK(rows[1].rpm == 2000);
    CHECK(rows[1].degrees == doctest::Approx(18 - 1.6 + 3));
    CHECK(rows[1].covered);
    for (const AdvanceRow& row : rows) {
        CHECK(row.drop == doctest::Approx(piston_drop(kCrank, -row.degrees)));
        CHECK(row.milliseconds == doctest::Approx(row.degrees / 360 * 60000 / row.rpm));
    }
    CHECK(milliseconds_of_degrees(360, 6000) == doctest::Approx(10));
}

TEST_CASE("speeds asked for are the rows, a spark after the top is negative") {
    const AdvanceCurve late = *AdvanceCurve::of({{0, -5}, {1000, -5}});
    const auto rows = *advance_table(kCrank, 0, {late}, {0, 500});
    REQUIRE(rows.size() == 2);
    CHECK(rows[0].milliseconds == 0.0);
    CHECK(rows[1].degrees == -5);
    CHECK(rows[1].milliseconds < 0);
    CHECK(rows[1].drop > 0);
    CHECK(advance_table(kCrank, 0, {late}, {-1}).reason() == "speed cannot be negative, and is -1");
    CHECK(advance_table(kCrank, 20, {})->empty());
}

TEST_CASE("a curve whose speeds do not rise is refused") {
    CHECK(AdvanceCurve::of({{1000, 0}, {1000, 5}}).reason() ==
          "the speeds of an advance curve must rise, and 1000 rpm follows 1000 rpm");
    CHECK(AdvanceCurve::of({{3000, 0}, {1000, 5}}).reason() ==
          "the speeds of an advance curve must rise, and 1000 rpm follows 3000 rpm");
    CHECK(AdvanceCurve::of({}).reason() ==
          "an advance curve needs at least one point (rpm, degrees)");
    CHECK(AdvanceCurve::of({{-1, 0}}).reason() ==
          "speed of an advance curve cannot be negative, and is -1");
}

}  // namespace
