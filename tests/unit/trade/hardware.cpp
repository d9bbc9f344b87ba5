// SPDX-License-Identifier: MIT
#include <doctest/doctest.h>

#include <trialfit/trade/cone/key.hpp>
#include <trialfit/trade/cone/shaft_end.hpp>
#include <trialfit/trade/fastening/hardware.hpp>
#include <trialfit/trade/shop/lathe.hpp>

using namespace trialfit::trade;

namespace {

TEST_CASE("parallel keys follow one another without a gap and leave room over their tops") {
    double before = 6.0;
    for (const ParallelKey& key : parallel_keys()) {
        CHECK(key.shaft_over == before);
        CHECK(key.shaft_incl > key.shaft_over);
        CHECK(key_excess(key.height, key.shaft_depth, key.hub_depth) < 0.0);
        CHECK(key.height <= key.width);
        CHECK_FALSE(key.source.empty());
        CHECK(parallel_key(key.shaft_incl)->width == key.width);
        before = key.shaft_incl;
    }
    CHECK_FALSE(parallel_key(before + 0.01).ok());
}

TEST_CASE("Woodruff keys leave room over their tops and fit into their discs") {
    for (const WoodruffKey& key : woodruff_keys()) {
        CHECK(key_excess(key.height, key.shaft_depth, key.hub_depth) == doctest::Approx(-0.2));
        CHECK(key.height < key.disc_dia / 2.0);
        CHECK(*woodruff_length(key.height, key.disc_dia) < key.disc_dia);
        CHECK(woodruff_key(key.width, key.height)->disc_dia == key.disc_dia);
    }
    CHECK(woodruff_key(3, 4).reason() ==
          "no Woodruff key 3 x 4 mm is tabulated; state its slots' depths");
    CHECK_FALSE(inch_woodruff_key(3, 4).ok());
    CHECK(woodruff_length(8, 7).reason() == "height of the key must lie between 0 and 7, not 8");
    CHECK(*woodruff_length(3.5, 7) == 7.0);
}

TEST_CASE("a key's excess over its room is what holds a hub off") {
    CHECK(key_excess(5.0, 3.0, 2.3) == doctest::Approx(-0.3));
    CHECK(key_excess(5.9, 1.5, 1.5) == doctest::Approx(2.9));
}

TEST_CASE("conical shaft ends taper 1 in 10 and thicken down the table") {
    double before = 0.0;
    for (const ConicalShaftEnd& end : conical_shaft_ends()) {
        CHECK(end.large_dia > before);
        CHECK(end.large_dia - end.small_dia == doctest::Approx(0.1 * end.cone_length));
        CHECK(end.mid_dia == doctest::Approx((end.large_dia + end.small_dia) / 2));
        CHECK(end.cone_length + end.thread_length == end.length);
        before = end.large_dia;
    }
}

TEST_CASE("nuts: thin ones are thinner, all have limits the right way round") {
    for (const double d : {5.0, 6.0, 8.0, 10.0, 12.0, 14.0, 16.0, 20.0, 24.0}) {
        const Nut regular = *hexagon_nut(NutKind::regular_iso_4032, d);
        const Nut thin = *hexagon_nut(NutKind::thin_iso_4035, d);
        CHECK(thin.height_max < regular.height_min);
        CHECK(thin.height_min < thin.height_max);
        CHECK(regular.across_flats == thin.across_flats);
    }
    CHECK(hexagon_nut(NutKind::din_934, 11).reason() ==
          "no nut DIN 934 for M11 is tabulated; measure it");
}

TEST_CASE("washers lie between their limits") {
    for (const double d : {5.0, 6.0, 8.0, 10.0, 12.0, 14.0, 16.0, 20.0}) {
        const Washer washer = *plain_washer(d);
        CHECK(washer.bore > d);
        CHECK(washer.od > washer.bore);
        CHECK(washer.thickness_min < washer.thickness);
        CHECK(washer.thickness < washer.thickness_max);
    }
    CHECK(plain_washer(11).reason() == "no washer for M11 is tabulated; measure it");
}

TEST_CASE("shims come thinnest first and customary gaps the right way round") {
    for (const ShimSet& set : shim_sets()) {
        CAPTURE(set.what);
        for (std::size_t i = 1; i < set.thicknesses.size(); ++i)
            CHECK(set.thicknesses[i] > set.thicknesses[i - 1]);
        CHECK_FALSE(set.source.empty());
    }
    for (const CitedRange& gap : customary_gaps())
        CHECK(gap.lower <= gap.upper);
}

TEST_CASE("the shim and the float that it leaves are each other's answer") {
    const double room = 38.10 + 41.25 + 0.30;
    const double shim = shim_for_float(room, 30.0 + 49.0 + 0.1, 0.2);
    CHECK(shim_for_float(room, 30.0 + 49.0 + 0.1, shim) == doctest::Approx(0.2));
    CHECK(shim == doctest::Approx(0.35));
    CHECK(shim_rounded_down(2.299, 0.05) == doctest::Approx(2.25));
    CHECK(shim_rounded_down(0.15, 0.05) == doctest::Approx(0.15));
}

TEST_CASE("surface heights: the exact is a little more, and half a circle at most") {
    const SurfaceHeight height = *surface_height(0.2, 0.8);
    CHECK(height.exact > height.usual);
    CHECK(surface_height(1.6, 0.8)->exact == doctest::Approx(0.8));
    CHECK(surface_height(0, 0.8)->exact == 0.0);
    CHECK(surface_height(1.7, 0.8).reason() == "feed must lie between 0 and 1.6, not 1.7");
    CHECK(sharp_tool_height(0.1, 0, 90).reason() ==
          "a tool's edge angles must be less than 90 degrees");
    CHECK(sharp_tool_height(0.1, 0, 45).value() == doctest::Approx(0.1));
}

TEST_CASE("instruments grow worse with length and no better inside") {
    for (const Instrument each : {Instrument::vernier_caliper, Instrument::fine_caliper}) {
        CHECK(instrument_limit(each, 50)->value <= instrument_limit(each, 400)->value);
        CHECK(instrument_limit(each, 50, Reach::inside_or_depth)->value ==
              doctest::Approx(instrument_limit(each, 50)->value + 0.02));
    }
    CHECK(instrument_limit(Instrument::micrometer, 500).reason() ==
          "no limit is tabulated for 500 mm; state the gauge's own");
    CHECK(instrument_limit(Instrument::micrometer, -1).reason() ==
          "length cannot be negative, and is -1");
    for (const CitedRange& cut : facing_cuts())
        CHECK(cut.lower <= cut.upper);
    for (const CitedRange& process : process_grades())
        CHECK(process.lower < process.upper);
}

}  // namespace
