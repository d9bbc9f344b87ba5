// SPDX-License-Identifier: MIT
#include <cmath>
#include <string>
#include <trialfit/job/validity/spin.hpp>
#include <utility>
#include <variant>

namespace trialfit::job {

namespace {

bool sound(const quantity::Size& size) {
    return std::isfinite(size.nominal) && std::isfinite(size.lower) && std::isfinite(size.upper) &&
           size.lower <= size.upper;
}

class SpinFinder {
public:
    explicit SpinFinder(Complaints& complaints) : complaints_(complaints) {}

    /// From `least` to `most` all through.
    void span(const std::optional<Span>& span, const char* key, double least, double most) {
        if (!span) return;
        const bool within = span->least >= least && span->greatest <= most;
        if (within && span->least <= span->greatest) return;
        say(span->at, std::string("'") + key + "' is the wrong way round or beyond its bounds");
    }
    void say(Place at, std::string fault) {
        complaints_.push_back({.at = at,
                               .fault = std::move(fault),
                               .mend = "give the least first, within what the format allows"});
    }

private:
    Complaints& complaints_;
};

}  // namespace

Complaints validate_spin(const Job& job) {
    Complaints complaints;
    if (!job.spin) return complaints;
    const Spin& spin = *job.spin;
    SpinFinder finder(complaints);
    finder.span(spin.crank_inertia_kg_m2, "crank_inertia", kLeastInertia_kg_m2, kMostInertia_kg_m2);
    finder.span(spin.drag_nm, "drag", 0.0, kMostStarterTorque_nm);
    finder.span(spin.compression, "compression", kLeastCompression, kMostCompression);
    finder.span(spin.exponent, "exponent", kLeastExponent, kMostExponent);
    finder.span(spin.air_kpa, "air_pressure", kLeastAir_kpa, kMostAir_kpa);
    finder.span(spin.under_piston, "under_piston", 0.0, 1.0);
    finder.span(spin.spark_from_rpm, "spark_from", kLeastSpin_rpm, kMostSpin_rpm);
    finder.span(spin.idle_rpm, "idle", kLeastSpin_rpm, kMostSpin_rpm);
    if (spin.bore && !(sound(spin.bore->size) && spin.bore->size.lower > 0.0))
        finder.say(spin.bore->at, "'bore' is no diameter");
    if (spin.closes_at && !sound(spin.closes_at->value.size))
        finder.say(spin.closes_at->value.at, "'closes_at' is no angle and no height");
    if (!spin.starter) return complaints;
    if (const auto* const by = std::get_if<StarterEnergy>(&*spin.starter))
        finder.span(by->energy_j, "energy", 0.0, kMostEnergy_j);
    if (const auto* const by = std::get_if<StarterSpeed>(&*spin.starter))
        finder.span(by->speed_rpm, "speed", kLeastSpin_rpm, kMostSpin_rpm);
    if (const auto* const by = std::get_if<StarterTorque>(&*spin.starter)) {
        finder.span(by->torque_nm, "torque", 0.0, kMostStarterTorque_nm);
        finder.span(by->turns, "turns", kLeastTurns, kMostTurns);
    }
    return complaints;
}

}  // namespace trialfit::job
