// SPDX-License-Identifier: MIT
#include <algorithm>
#include <cmath>
#include <initializer_list>
#include <limits>
#include <numbers>
#include <optional>
#include <trialfit/spin/compression.hpp>
#include <trialfit/trade/engine/compression.hpp>
#include <trialfit/trade/engine/crank_slider.hpp>
#include <trialfit/trade/engine/flywheel.hpp>

namespace trialfit::spin {

namespace {

constexpr double kDegreesPerTurn = 360.0;

// Least, middle and greatest of a size, each once.
std::vector<double> ends_of(const quantity::Size& size) {
    if (size.lower == size.upper) return {size.lower};
    return {size.lower, size.middle(), size.upper};
}

quantity::Size size_or_none(const std::optional<job::Given>& given) {
    return given ? given->size : quantity::exact(0.0);
}

// A point of the turn before the top, over all limits. Drops in mm.
struct CrankPoint {
    Estimate degrees;
    Estimate drop;
};

// Where the point lies on one crank; a drop beyond the stroke is the bottom.
struct OnCrank {
    double degrees = 0.0;
    double drop = 0.0;
};

using Place = std::optional<job::AngleGiven>;

class PointFinder {
public:
    explicit PointFinder(const job::Job& job)
        : timing_(*job.timing),
          mm_(quantity::mm_per(job.units)),
          offset_(size_or_none(timing_.pin_offset)),
          tilt_(size_or_none(timing_.plug_tilt)) {}

    // Nothing stands for the bottom.
    [[nodiscard]] trade::Result<CrankPoint> point(const Place& place) const {
        constexpr double kInfinity = std::numeric_limits<double>::infinity();
        CrankPoint found{.degrees = {kInfinity, 0.0, -kInfinity},
                         .drop = {kInfinity, 0.0, -kInfinity}};
        const auto middle = middle_crank();
        if (!middle) return middle.why();
        const OnCrank at_middle =
            on_crank(*middle, place, place ? place->value.size.middle() : 0.0, tilt_.middle());
        found.degrees.middle = at_middle.degrees;
        found.drop.middle = at_middle.drop;
        for (const double stroke : ends_of(timing_.stroke.size))
            for (const double rod : ends_of(timing_.rod.size))
                for (const double offset : ends_of(offset_)) {
                    const auto crank = trade::crank_of(stroke * mm_, rod * mm_, offset * mm_);
                    if (!crank) return crank.why();
                    widen(*crank, place, found);
                }
        return found;
    }

private:
    [[nodiscard]] trade::Result<trade::Crank> middle_crank() const {
        return trade::crank_of(timing_.stroke.size.middle() * mm_, timing_.rod.size.middle() * mm_,
                               offset_.middle() * mm_);
    }

    void widen(const trade::Crank& crank, const Place& place, CrankPoint& found) const {
        const std::vector<double> values =
            place ? ends_of(place->value.size) : std::vector<double>{0.0};
        for (const double value : values)
            for (const double tilt : ends_of(tilt_)) {
                const OnCrank at = on_crank(crank, place, value, tilt);
                found.degrees.least = std::min(found.degrees.least, at.degrees);
                found.degrees.greatest = std::max(found.degrees.greatest, at.degrees);
                found.drop.least = std::min(found.drop.least, at.drop);
                found.drop.greatest = std::max(found.drop.greatest, at.drop);
            }
    }

    [[nodiscard]] OnCrank on_crank(const trade::Crank& crank, const Place& place, double value,
                                   double tilt_deg) const {
        if (!place)
            return {.degrees = kDegreesPerTurn - trade::down_stroke_deg(crank),
                    .drop = trade::stroke_of(crank)};
        if (place->in == job::AngleIn::degrees)
            return {.degrees = value, .drop = trade::piston_drop(crank, -value)};
        // What a gauge reads lies along the tilted plug hole, any other height is the piston's.
        const bool by_gauge = place->value.gauge.has_value();
        const double along = by_gauge ? std::cos(tilt_deg * std::numbers::pi / 180.0) : 1.0;
        const double drop = std::clamp(value * mm_ * along, 0.0, trade::stroke_of(crank));
        const auto degrees = trade::degrees_from_top(crank, drop, trade::StrokeSide::before_top);
        return {.degrees = degrees ? *degrees : kDegreesPerTurn / 2.0, .drop = drop};
    }

    const job::Timing& timing_;
    double mm_ = 1.0;
    quantity::Size offset_;
    quantity::Size tilt_;
};

// The figures of one corner of all ranges, or of their middle.
struct Filling {
    double bore = 0.0;
    double ratio = 0.0;
    double closing_drop = 0.0;
    trade::Trapped gas;
};

double middle_of_span(const job::Span& span) {
    return (span.least + span.greatest) / 2.0;
}

class Filler {
public:
    Filler(const job::Job& job, const CrankPoint& closing)
        : spin_(*job.spin), mm_(quantity::mm_per(job.units)), closing_(closing) {}

    // Of the most work, or of the least.
    [[nodiscard]] Filling hard() const { return filled(true); }
    [[nodiscard]] Filling easy() const { return filled(false); }
    [[nodiscard]] Filling middle() const {
        return {.bore = spin_.bore->size.middle() * mm_,
                .ratio = middle_of_span(*spin_.compression),
                .closing_drop = closing_.drop.middle,
                .gas = {.kpa = middle_of_span(air()),
                        .exponent = middle_of_span(exponent()),
                        .under_piston = middle_of_span(under())}};
    }

private:
    [[nodiscard]] Filling filled(bool hard) const {
        const auto end = [hard](const job::Span& span) {
            return hard ? span.greatest : span.least;
        };
        return {.bore = (hard ? spin_.bore->size.upper : spin_.bore->size.lower) * mm_,
                .ratio = end(*spin_.compression),
                .closing_drop = hard ? closing_.drop.greatest : closing_.drop.least,
                .gas = {.kpa = end(air()),
                        .exponent = end(exponent()),
                        .under_piston = hard ? under().least : under().greatest}};
    }
    [[nodiscard]] job::Span air() const { return spin_.air_kpa.value_or(job::kUsualAir_kpa); }
    [[nodiscard]] job::Span exponent() const {
        return spin_.exponent.value_or(job::kUsualExponent);
    }
    [[nodiscard]] job::Span under() const {
        return spin_.under_piston.value_or(job::kNothingUnderPiston);
    }

    const job::Spin& spin_;
    double mm_ = 1.0;
    CrankPoint closing_;
};

struct Works {
    double gas_j = 0.0;
    double net_j = 0.0;
};

trade::Result<Works> works(const Filling& filling, double drop) {
    const auto cylinder = trade::cylinder_of(filling.bore, filling.closing_drop, filling.ratio);
    if (!cylinder) return cylinder.why();
    // Beyond where it closes nothing is compressed yet.
    const double until = std::min(drop, filling.closing_drop);
    trade::Trapped alone = filling.gas;
    alone.under_piston = 0.0;
    return Works{.gas_j = trade::compression_work_j(*cylinder, alone, until),
                 .net_j = trade::compression_work_j(*cylinder, filling.gas, until)};
}

double turns_of(double degrees) {
    return std::max(degrees, 0.0) / kDegreesPerTurn;
}

// What a torque takes from the one point to the other.
Estimate drag_between(const job::Span& drag, const Estimate& from_deg, const Estimate& to_deg) {
    return {
        trade::work_of_torque_j(drag.least, turns_of(from_deg.least - to_deg.greatest)),
        trade::work_of_torque_j(middle_of_span(drag), turns_of(from_deg.middle - to_deg.middle)),
        trade::work_of_torque_j(drag.greatest, turns_of(from_deg.greatest - to_deg.least))};
}

trade::Result<CompressionPath> path(const job::Job& job, const CrankPoint& closing,
                                    const CrankPoint& end) {
    const Filler filler(job, closing);
    const auto least = works(filler.easy(), end.drop.greatest);
    const auto middle = works(filler.middle(), end.drop.middle);
    const auto greatest = works(filler.hard(), end.drop.least);
    for (const auto* each : {&least, &middle, &greatest})
        if (!*each) return each->why();
    CompressionPath found{.degrees = end.degrees,
                          .gas_j = {least->gas_j, middle->gas_j, greatest->gas_j},
                          .work_j = {least->net_j, middle->net_j, greatest->net_j},
                          .drag_j = {},
                          .loss_j = {}};
    if (!job.spin->drag_nm) return found;
    found.drag_j = drag_between(*job.spin->drag_nm, closing.degrees, end.degrees);
    found.loss_j = Estimate{found.work_j.least + found.drag_j->least,
                            found.work_j.middle + found.drag_j->middle,
                            found.work_j.greatest + found.drag_j->greatest};
    return found;
}

trade::Result<double> trapped(const Filling& filling) {
    const auto cylinder = trade::cylinder_of(filling.bore, filling.closing_drop, filling.ratio);
    if (!cylinder) return cylinder.why();
    return trade::volume_cm3(*cylinder, filling.closing_drop);
}

// It falls as the ratio rises, and rises with the bore and the drop.
trade::Result<Estimate> trapped_range(const Filler& filler) {
    Filling small = filler.easy();
    Filling large = filler.hard();
    std::swap(small.ratio, large.ratio);
    const auto least = trapped(small);
    const auto middle = trapped(filler.middle());
    const auto greatest = trapped(large);
    for (const auto* each : {&least, &middle, &greatest})
        if (!*each) return each->why();
    return Estimate{*least, *middle, *greatest};
}

}  // namespace

trade::Result<Compression> compression(const job::Job& job) {
    const PointFinder finder(job);
    const auto closing = finder.point(job.spin->closes_at);
    if (!closing) return closing.why();
    Compression found;
    found.closes_deg = closing->degrees;
    const auto volume = trapped_range(Filler(job, *closing));
    if (!volume) return volume.why();
    found.trapped_cm3 = *volume;
    const auto to_top = path(job, *closing, CrankPoint{});
    if (!to_top) return to_top.why();
    found.to_top = *to_top;
    if (!job.timing->fire_at) return found;
    const auto firing = finder.point(job.timing->fire_at);
    if (!firing) return firing.why();
    const auto to_firing = path(job, *closing, *firing);
    if (!to_firing) return to_firing.why();
    found.to_firing = *to_firing;
    return found;
}

}  // namespace trialfit::spin
