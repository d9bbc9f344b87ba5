// SPDX-License-Identifier: MIT
#include <cmath>
#include <limits>
#include <trialfit/stack/model/cone_seat.hpp>

namespace trialfit::stack {

namespace {

constexpr double kSameTaper = 1e-12;

// A steeper shaft meets the hub at the large end of their common length; a hub steeper than the
// shaft, at the small end. Which part's end that is depends on where the other one reaches.
ConeSeat at_large_end(const ConeShape& shaft, const ConeShape& hub) {
    const double at_hub_end = (shaft.dia - hub.dia) / shaft.taper;
    if (at_hub_end >= 0.0) {
        return {
            .bearing = Bearing::hub_large_end, .by_dia = 1.0 / shaft.taper, .offset = at_hub_end};
    }
    return {.bearing = Bearing::shaft_large_end,
            .by_dia = 1.0 / hub.taper,
            .offset = (shaft.dia - hub.dia) / hub.taper};
}

ConeSeat at_small_end(const ConeShape& shaft, const ConeShape& hub) {
    const double excess = hub.taper - shaft.taper;
    const double at_hub_end = (shaft.dia - hub.dia + excess * hub.length) / shaft.taper;
    if (at_hub_end + hub.length <= shaft.length) {
        return {.bearing = Bearing::hub_small_end,
                .by_dia = 1.0 / shaft.taper,
                .by_length = excess / shaft.taper,
                .length_of_hub = true,
                .offset = at_hub_end};
    }
    return {.bearing = Bearing::shaft_small_end,
            .by_dia = 1.0 / hub.taper,
            .by_length = excess / hub.taper,
            .length_of_hub = false,
            .offset = (shaft.dia - hub.dia + excess * shaft.length) / hub.taper};
}

ConeSeat mirrored(ConeSeat seat) {
    seat.by_dia = -seat.by_dia;
    seat.by_length = -seat.by_length;
    seat.offset = -seat.offset;
    return seat;
}

}  // namespace

ConeSeat seat_on_cone(const ConeShape& shaft, const ConeShape& hub) {
    if (std::abs(shaft.taper - hub.taper) < kSameTaper) {
        return {.bearing = Bearing::whole,
                .by_dia = 1.0 / shaft.taper,
                .offset = (shaft.dia - hub.dia) / shaft.taper};
    }
    if (!std::isfinite(shaft.dia) || !std::isfinite(hub.dia)) {
        // Which end bears is known, but not against what: no lever that could be trusted.
        const double unknown = std::numeric_limits<double>::quiet_NaN();
        return {.bearing = std::abs(shaft.taper) > std::abs(hub.taper) ? Bearing::hub_large_end
                                                                       : Bearing::hub_small_end,
                .by_dia = unknown,
                .offset = unknown};
    }
    if (shaft.taper < 0.0) {
        return mirrored(seat_on_cone({shaft.dia, -shaft.taper, shaft.length},
                                     {hub.dia, -hub.taper, hub.length}));
    }
    return shaft.taper > hub.taper ? at_large_end(shaft, hub) : at_small_end(shaft, hub);
}

}  // namespace trialfit::stack
