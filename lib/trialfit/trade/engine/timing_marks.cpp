// SPDX-License-Identifier: MIT
#include <algorithm>
#include <cmath>
#include <numbers>
#include <trialfit/trade/engine/timing_marks.hpp>

namespace trialfit::trade {
namespace {

constexpr double kMarkDegree = std::numbers::pi / 180.0;

}  // namespace

MarkOffset mark_offset(double dia, double degrees) {
    return {dia / 2.0 * degrees * kMarkDegree, dia * std::sin(degrees * kMarkDegree / 2.0)};
}

double degrees_of_arc(double dia, double arc) {
    return arc / (dia / 2.0) / kMarkDegree;
}

Turning opposite(Turning turning) {
    return turning == Turning::clockwise ? Turning::anticlockwise : Turning::clockwise;
}

Turning stator_turn_for_earlier(Turning shaft) {
    return opposite(shaft);
}

Turning stator_turn_for_later(Turning shaft) {
    return shaft;
}

Result<NearestMark> nearest_mark(const std::vector<double>& marks_deg, double wanted_deg) {
    if (marks_deg.empty()) return Reason{"no marks are given"};
    const auto off = [&](double mark) { return std::remainder(mark - wanted_deg, 360.0); };
    const auto nearest = std::min_element(
        marks_deg.begin(), marks_deg.end(),
        [&](double one, double other) { return std::abs(off(one)) < std::abs(off(other)); });
    return NearestMark{static_cast<std::size_t>(nearest - marks_deg.begin()), off(*nearest)};
}

}  // namespace trialfit::trade
