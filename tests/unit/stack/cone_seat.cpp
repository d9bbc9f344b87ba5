// SPDX-License-Identifier: MIT
#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <trialfit/stack/model/cone_seat.hpp>

using trialfit::stack::Bearing;
using trialfit::stack::ConeSeat;
using trialfit::stack::ConeShape;
using trialfit::stack::seat_on_cone;

namespace {

// The seat by search: the least offset at which the hub's bore is nowhere smaller than the shaft.
double offset_by_search(const ConeShape& shaft, const ConeShape& hub) {
    const auto clears = [&](double offset) {
        const double from = std::max(0.0, offset);
        const double to = std::min(shaft.length, offset + hub.length);
        for (const double u : {from, to}) {
            if (hub.dia - hub.taper * (u - offset) < shaft.dia - shaft.taper * u) return false;
        }
        return true;
    };
    double in = -hub.length;
    double out = shaft.length;
    for (int i = 0; i < 200; ++i)
        (clears((in + out) / 2) ? out : in) = (in + out) / 2;
    return out;
}

}  // namespace

TEST_CASE("equal tapers: the hub's gauge plane lies (D_shaft - D_hub)/T outboard") {
    const ConeSeat seat = seat_on_cone({16.0, 0.2, 16.0}, {15.6, 0.2, 16.0});
    CHECK(seat.bearing == Bearing::whole);
    CHECK(seat.offset == doctest::Approx(2.0).epsilon(1e-14));
    CHECK(seat.by_dia == 5.0);
    CHECK(seat.by_length == 0.0);
}

TEST_CASE("unequal tapers bear at one end, where a search also finds the stop") {
    struct Case {
        ConeShape shaft;
        ConeShape hub;
        Bearing bearing;
    };
    for (const Case& each :
         {Case{{16.0, 0.21, 16.0}, {15.6, 0.2, 14.0}, Bearing::hub_large_end},
          Case{{16.0, 0.21, 16.0}, {16.2, 0.2, 16.0}, Bearing::shaft_large_end},
          Case{{16.0, 0.2, 16.0}, {15.9, 0.21, 10.0}, Bearing::hub_small_end},
          Case{{16.0, 0.2, 12.0}, {15.6, 0.21, 16.0}, Bearing::shaft_small_end}}) {
        const ConeSeat seat = seat_on_cone(each.shaft, each.hub);
        CHECK(seat.bearing == each.bearing);
        CHECK(seat.offset ==
              doctest::Approx(offset_by_search(each.shaft, each.hub)).epsilon(1e-12));
        const double length = seat.length_of_hub ? each.hub.length : each.shaft.length;
        CHECK(seat.by_dia * (each.shaft.dia - each.hub.dia) + seat.by_length * length ==
              doctest::Approx(seat.offset).epsilon(1e-12));
    }
}

TEST_CASE("cones that narrow inboard are the mirror image") {
    const ConeSeat seat = seat_on_cone({16.0, 0.21, 16.0}, {15.6, 0.2, 14.0});
    const ConeSeat mirrored = seat_on_cone({16.0, -0.21, 16.0}, {15.6, -0.2, 14.0});
    CHECK(mirrored.offset == -seat.offset);
    CHECK(mirrored.by_dia == -seat.by_dia);
    CHECK(mirrored.bearing == seat.bearing);
}
