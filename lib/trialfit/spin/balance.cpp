// SPDX-License-Identifier: MIT
#include <algorithm>
#include <trialfit/spin/balance.hpp>
#include <trialfit/trade/engine/flywheel.hpp>
#include <variant>

namespace trialfit::spin {

namespace {

Estimate estimate_of(const job::Span& span) {
    return {span.least, (span.least + span.greatest) / 2.0, span.greatest};
}

// A function that rises with `up` and falls with `down`.
template <typename Function>
Estimate rising_falling(const Estimate& up, const Estimate& down, const Function& of) {
    return {of(up.least, down.greatest), of(up.middle, down.middle), of(up.greatest, down.least)};
}

// One that rises with both.
template <typename Function>
Estimate rising(const Estimate& one, const Estimate& other, const Function& of) {
    return {of(one.least, other.least), of(one.middle, other.middle),
            of(one.greatest, other.greatest)};
}

double speed_left(double energy_j, double loss_j, double inertia_kg_m2) {
    return energy_j > loss_j ? trade::speed_of_energy_rpm(inertia_kg_m2, energy_j - loss_j) : 0.0;
}

double speed_left_of_speed(double rpm, double loss_j, double inertia_kg_m2) {
    return speed_left(trade::stored_energy_j(inertia_kg_m2, rpm), loss_j, inertia_kg_m2);
}

Verdict at_least(const Estimate& has, const Estimate& needs) {
    if (has.least >= needs.greatest) return Verdict::holds;
    return has.middle >= needs.middle ? Verdict::doubtful : Verdict::fails;
}

Estimate speed_at_firing(const Stakes& stakes) {
    const Estimate& inertia = *stakes.inertia_kg_m2;
    const Estimate& loss = *stakes.loss_to_firing_j;
    if (stakes.start.by == StarterKind::speed) {
        const Estimate& rpm = *stakes.start.rpm;
        return {speed_left_of_speed(rpm.least, loss.greatest, inertia.least),
                speed_left_of_speed(rpm.middle, loss.middle, inertia.middle),
                speed_left_of_speed(rpm.greatest, loss.least, inertia.greatest)};
    }
    const Estimate& energy = *stakes.start.energy_j;
    return {speed_left(energy.least, loss.greatest, inertia.greatest),
            speed_left(energy.middle, loss.middle, inertia.middle),
            speed_left(energy.greatest, loss.least, inertia.least)};
}

// The greatest inertia that a given energy still brings through.
InertiaLimit most_inertia(const Stakes& stakes) {
    const auto most = [](double energy, double loss, double rpm) {
        return energy > loss ? trade::inertia_of_energy_kg_m2(energy - loss, rpm) : 0.0;
    };
    const Estimate& energy = *stakes.start.energy_j;
    const Estimate& loss = *stakes.loss_to_firing_j;
    const Estimate& rpm = *stakes.spark_from_rpm;
    return {.at_most = true,
            .least_kg_m2 = most(energy.least, loss.greatest, rpm.greatest),
            .middle_kg_m2 = most(energy.middle, loss.middle, rpm.middle),
            .greatest_kg_m2 = most(energy.greatest, loss.least, rpm.least)};
}

// The least inertia that a given speed brings through, and over the top.
InertiaLimit least_inertia(const Stakes& stakes) {
    const auto least = [](double from, double to, double firing,
                          double top) -> std::optional<double> {
        if (!(from > to)) return std::nullopt;
        return std::max(trade::inertia_to_keep_kg_m2(firing, from, to),
                        trade::inertia_of_energy_kg_m2(top, from));
    };
    const Estimate& from = *stakes.start.rpm;
    const Estimate& to = *stakes.spark_from_rpm;
    const Estimate& firing = *stakes.loss_to_firing_j;
    const Estimate& top = stakes.loss_to_top_j;
    return {.at_most = false,
            .least_kg_m2 = least(from.greatest, to.least, firing.least, top.least),
            .middle_kg_m2 = least(from.middle, to.middle, firing.middle, top.middle),
            .greatest_kg_m2 = least(from.least, to.greatest, firing.greatest, top.greatest)};
}

struct StartedBy {
    const std::optional<Estimate>& inertia;
    const std::optional<job::Span>& drag;

    Started operator()(const job::StarterEnergy& by) const {
        return of_energy(StarterKind::energy, estimate_of(by.energy_j));
    }
    Started operator()(const job::StarterTorque& by) const {
        if (!drag) return {.by = StarterKind::torque, .energy_j = {}, .rpm = {}};
        const Estimate net =
            rising_falling(estimate_of(by.torque_nm), estimate_of(*drag),
                           [](double torque, double lost) { return std::max(torque - lost, 0.0); });
        return of_energy(StarterKind::torque,
                         rising(net, estimate_of(by.turns), trade::work_of_torque_j));
    }
    Started operator()(const job::StarterSpeed& by) const {
        Started out{.by = StarterKind::speed, .energy_j = {}, .rpm = estimate_of(by.speed_rpm)};
        if (inertia) out.energy_j = rising(*inertia, *out.rpm, trade::stored_energy_j);
        return out;
    }

    [[nodiscard]] Started of_energy(StarterKind kind, const Estimate& energy) const {
        Started out{.by = kind, .energy_j = energy, .rpm = {}};
        if (inertia)
            out.rpm = rising_falling(energy, *inertia, [](double joule, double kg_m2) {
                return trade::speed_of_energy_rpm(kg_m2, joule);
            });
        return out;
    }
};

}  // namespace

Started started(const job::Starter& starter, const std::optional<Estimate>& inertia,
                const std::optional<job::Span>& drag) {
    return std::visit(StartedBy{inertia, drag}, starter);
}

std::optional<Held> carried_over(const Stakes& stakes) {
    if (!stakes.start.energy_j) return std::nullopt;
    Held held{.has = *stakes.start.energy_j, .needs = stakes.loss_to_top_j};
    held.verdict = at_least(held.has, held.needs);
    return held;
}

std::optional<Held> spark(const Stakes& stakes) {
    if (!stakes.inertia_kg_m2 || !stakes.loss_to_firing_j || !stakes.start.energy_j)
        return std::nullopt;
    Held held{.has = speed_at_firing(stakes),
              .needs = stakes.spark_from_rpm.value_or(Estimate{}),
              .verdict = Verdict::not_judged};
    if (stakes.spark_from_rpm) held.verdict = at_least(held.has, held.needs);
    return held;
}

std::optional<StarterNeeded> needed(const Stakes& stakes) {
    if (!spark(stakes) || !stakes.spark_from_rpm) return std::nullopt;
    const auto energy = [](double inertia, double rpm, double firing, double top) {
        return std::max(top, trade::stored_energy_j(inertia, rpm) + firing);
    };
    const Estimate& inertia = *stakes.inertia_kg_m2;
    const Estimate& rpm = *stakes.spark_from_rpm;
    const Estimate& firing = *stakes.loss_to_firing_j;
    const Estimate& top = stakes.loss_to_top_j;
    StarterNeeded out;
    out.energy_j = {energy(inertia.least, rpm.least, firing.least, top.least),
                    energy(inertia.middle, rpm.middle, firing.middle, top.middle),
                    energy(inertia.greatest, rpm.greatest, firing.greatest, top.greatest)};
    out.inertia =
        stakes.start.by == StarterKind::speed ? least_inertia(stakes) : most_inertia(stakes);
    return out;
}

double middle_speed_with(const Stakes& stakes, double inertia_kg_m2) {
    const double loss = stakes.loss_to_firing_j->middle;
    return stakes.start.by == StarterKind::speed
               ? speed_left_of_speed(stakes.start.rpm->middle, loss, inertia_kg_m2)
               : speed_left(stakes.start.energy_j->middle, loss, inertia_kg_m2);
}

}  // namespace trialfit::spin
