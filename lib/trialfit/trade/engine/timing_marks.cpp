// SPDX-License-Identifier: MIT
#include <algorithm>
#include <cmath>
#include <numbers>
#include <trialfit/trade/domain.hpp>
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

Result<double> degrees_of_chord(double dia, double chord) {
    const Domain domain = Domain().positive("diameter", dia).within("chord", chord, -dia, dia);
    if (!domain) return domain.why();
    return 2.0 * std::asin(chord / dia) / kMarkDegree;
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

Result<SlotReach> slot_reach(const Slot& slot, double degrees, double share) {
    const Domain domain =
        Domain()
            .positive("the slot circle's diameter", slot.dia)
            .tube("screw diameter", slot.screw_dia, "length of the slot", slot.length)
            .that(slot.length < std::numbers::pi * slot.dia, "the slot is longer than its circle")
            .within("share of the slot that is free", share, 0.0, 1.0);
    if (!domain) return domain.why();
    SlotReach reach;
    reach.needed_deg = std::abs(degrees);
    reach.needed_arc = mark_offset(slot.dia, reach.needed_deg).arc;
    reach.free_arc = (slot.length - slot.screw_dia) * share;
    reach.free_deg = degrees_of_arc(slot.dia, reach.free_arc);
    reach.reaches = reach.needed_arc <= reach.free_arc;
    reach.short_arc = std::max(reach.needed_arc - reach.free_arc, 0.0);
    return reach;
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
