// SPDX-License-Identifier: MIT
#include <algorithm>
#include <cmath>
#include <trialfit/trade/domain.hpp>
#include <trialfit/trade/engine/timing_top.hpp>

namespace trialfit::trade {
namespace {

// The greater of the two angle errors that a height error makes.
double height_error_deg(const Crank& crank, double drop, double half_width, StrokeSide side) {
    const double stroke = stroke_of(crank);
    const double here = *degrees_from_top(crank, std::clamp(drop, 0.0, stroke), side);
    const double less = *degrees_from_top(crank, std::clamp(drop - half_width, 0.0, stroke), side);
    const double more = *degrees_from_top(crank, std::clamp(drop + half_width, 0.0, stroke), side);
    return std::max(here - less, more - here);
}

double uniform_sd(double half_width) {
    return half_width / std::sqrt(3.0);
}

}  // namespace

Result<TopByStops> top_by_stops(const Crank& crank, double before_deg, double after_deg,
                                double wheel_half_width_deg, double stop_half_width) {
    const double span = after_deg - before_deg;
    const Domain domain =
        Domain()
            .that(
                span > 0.0 && span < 360.0,
                "the reading after the top must come after the one before it, by less than a turn")
            .not_negative("the wheel's half-width", wheel_half_width_deg)
            .not_negative("the stop's half-width", stop_half_width);
    if (!domain) return domain.why();
    TopByStops top;
    top.drop = std::min(drop_of_half_span(crank, span / 2.0), stroke_of(crank));
    top.middle_deg = before_deg + span / 2.0;
    const double lean = *degrees_from_top(crank, top.drop, StrokeSide::after_top) - span / 2.0;
    top.top_deg = top.middle_deg - lean;
    const double stop_before =
        height_error_deg(crank, top.drop, stop_half_width, StrokeSide::before_top);
    const double stop_after =
        height_error_deg(crank, top.drop, stop_half_width, StrokeSide::after_top);
    top.worst_deg = wheel_half_width_deg + (stop_before + stop_after) / 2.0;
    const double wheel_sd = uniform_sd(wheel_half_width_deg) * std::sqrt(2.0);
    const double stop_sd = uniform_sd(std::hypot(stop_before, stop_after));
    top.sd_deg = std::hypot(wheel_sd, stop_sd) / 2.0;
    return top;
}

Result<TopByDwell> top_by_dwell(const Crank& crank, double gauge_half_width) {
    const Result<double> before = degrees_from_top(crank, gauge_half_width, StrokeSide::before_top);
    if (!before) return before.why();
    const Result<double> after = degrees_from_top(crank, gauge_half_width, StrokeSide::after_top);
    if (!after) return after.why();
    return TopByDwell{*before, *after, uniform_sd((*before + *after) / 2.0)};
}

}  // namespace trialfit::trade
