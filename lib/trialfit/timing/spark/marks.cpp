// SPDX-License-Identifier: MIT
#include <algorithm>
#include <cmath>
#include <trialfit/timing/spark/marks.hpp>
#include <trialfit/trade/engine/timing_marks.hpp>

namespace trialfit::timing {

namespace {

constexpr double kTurn_deg = 360.0;

Offset offset(double dia, double degrees) {
    const trade::MarkOffset laid = trade::mark_offset(dia, degrees);
    return {.dia = dia, .degrees = degrees, .arc = laid.arc, .chord = laid.chord};
}

std::optional<MarkCircle> circle(const std::optional<job::Given>& given, const Firing* firing,
                                 std::optional<double> turn_deg) {
    if (!given) return std::nullopt;
    const double dia = given->size.nominal;
    MarkCircle out{.one_degree = offset(dia, 1.0), .firing = {}, .turn = {}};
    if (firing != nullptr) out.firing = offset(dia, firing->set.degrees);
    if (turn_deg) out.turn = offset(dia, *turn_deg);
    return out;
}

// Degrees of an angle, or of an arc on the rim, nominal and at all limits at once.
struct Angle {
    double nominal = 0.0;
    Range limits;
};

Angle angle_of(const job::AngleGiven& given, const std::optional<job::Given>& rim) {
    const quantity::Size& size = given.value.size;
    if (given.in == job::AngleIn::degrees || !rim)
        return {.nominal = size.nominal, .limits = {size.lower, size.upper}};
    const quantity::Size& dia = rim->size;
    const auto [least, most] = std::minmax({trade::degrees_of_arc(dia.lower, size.lower),
                                            trade::degrees_of_arc(dia.upper, size.lower),
                                            trade::degrees_of_arc(dia.lower, size.upper),
                                            trade::degrees_of_arc(dia.upper, size.upper)});
    return {.nominal = trade::degrees_of_arc(dia.nominal, size.nominal), .limits = {least, most}};
}

Angle turned_round(const Angle& angle) {
    return {.nominal = -angle.nominal, .limits = {-angle.limits.hi, -angle.limits.lo}};
}

// Whether the limits of both meet, whole turns aside.
bool meets(const Angle& mark, const Angle& wanted) {
    const double off = std::remainder(mark.nominal - wanted.nominal, kTurn_deg);
    const double below = mark.nominal - mark.limits.lo + (wanted.limits.hi - wanted.nominal);
    const double above = mark.limits.hi - mark.nominal + (wanted.nominal - wanted.limits.lo);
    return off <= below && off >= -above;
}

MarkFit fit_of(const Engine& engine, const job::TimingMark& mark, const Angle& wanted) {
    const Angle angle = angle_of(mark.angle, engine.timing.rim_dia);
    MarkFit out;
    out.name = mark.name;
    out.written = mark.angle.value.written;
    out.degrees = angle.nominal;
    out.limits = angle.limits;
    const double before_top = std::remainder(angle.nominal, kTurn_deg);
    if (before_top >= 0.0) out.height = trade::piston_drop(engine.crank, -before_top);
    out.off_deg = std::remainder(angle.nominal - wanted.nominal, kTurn_deg);
    out.fits = meets(angle, wanted);
    out.fits_turned_round = meets(turned_round(angle), wanted);
    return out;
}

}  // namespace

Marks marks(const Engine& engine, const Firing* firing, std::optional<double> turn_deg) {
    const job::Timing& timing = engine.timing;
    Marks out;
    out.rim = circle(timing.rim_dia, firing, std::nullopt);
    out.stator = circle(timing.stator_dia, firing, turn_deg);
    if (firing == nullptr || timing.marks.empty()) return out;
    const CrankPoint& set = firing->set;
    const Angle wanted{.nominal = set.degrees, .limits = firing->allowed_deg.value_or(set.worst)};
    std::vector<double> degrees;
    for (const job::TimingMark& mark : timing.marks) {
        out.found.push_back(fit_of(engine, mark, wanted));
        degrees.push_back(out.found.back().degrees);
    }
    out.nearest = trade::nearest_mark(degrees, wanted.nominal)->index;
    return out;
}

}  // namespace trialfit::timing
