// SPDX-License-Identifier: MIT
#include <algorithm>
#include <cmath>
#include <cstddef>
#include <optional>
#include <trialfit/stack/model/index.hpp>
#include <trialfit/survey/suspect/judging.hpp>
#include <trialfit/survey/suspect/others.hpp>
#include <trialfit/survey/suspect/slips.hpp>
#include <trialfit/survey/suspect/suspects.hpp>

namespace trialfit::survey {

namespace {

using stack::Model;
using stack::SizeColumns;

// In which order those stand that nothing tells apart: a known slip before an odd amount, a reading
// taken on trial-fitted parts before a part's own size. An order of looking, not a judgement.
double rank(const Suspect& suspect) {
    constexpr double kReading = 2.0;
    constexpr double kKnownSlip = 2.0;
    return (suspect.kind == SuspectKind::reading ? kReading : 0.0) +
           (suspect.slip ? kKnownSlip : 0.0);
}

Suspect single(const Model& model, const stack::Ties::Adjustment& adjustment, int size,
               bool is_reading) {
    const stack::Variable& variable = model.sizes()[static_cast<std::size_t>(size)];
    const OwnError error = own_error(model.columns(), adjustment, size);
    const double is = model.columns().middle[size];
    Suspect suspect{.name = variable.label,
                    .kind = is_reading ? SuspectKind::reading : SuspectKind::size,
                    .at = variable.at,
                    .written = variable.written,
                    .is = is};
    suspect.off_by = error.off_by;
    suspect.should_be = is - error.off_by;
    const double own = model.columns().sd[size];
    suspect.should_be_sd = std::sqrt(std::max(0.0, error.sd * error.sd - own * own));
    suspect.chi_square_drop = error.standardised * error.standardised;
    suspect.slip = slip_of(suspect, is, error.sd, model.job().units);
    suspect.size = variable.id;
    return suspect;
}

// A depth rod's offset, say, is common to all that the gauge read; with fewer than three of its
// figures in play it could not be told from an error of one.
std::optional<Suspect> common_to_gauge(const Model& model, int gauge) {
    Eigen::VectorXd marked = Eigen::VectorXd::Zero(static_cast<Eigen::Index>(model.sizes().size()));
    int count = 0;
    for (std::size_t size = 0; size < model.sizes().size(); ++size) {
        if (model.sizes()[size].gauge != gauge || !model.ties().tied(static_cast<int>(size)))
            continue;
        marked[static_cast<Eigen::Index>(size)] = 1.0;
        ++count;
    }
    if (count < 3) return std::nullopt;
    const stack::Ties::CommonError error =
        model.ties().common_error(model.columns().middle, marked);
    const job::Gauge& named = model.job().gauges[static_cast<std::size_t>(gauge)];
    Suspect suspect{
        .name = named.name, .kind = SuspectKind::gauge, .at = named.at, .off_by = error.amount};
    suspect.should_be_sd = error.sd;
    suspect.chi_square_drop = error.chi_square_drop;
    suspect.gauge = gauge;
    return suspect;
}

// A reading that states what touched, were that wrong: the best of the other ways to lie.
std::optional<Suspect> other_contact(const Model& unbound, const Contacts& contacts,
                                     std::size_t which) {
    const Contacts::Found& found = contacts.readings[which];
    const job::Reading& reading = unbound.job().readings[stack::at(found.fit.reading)];
    std::vector<stack::Form> misfits;
    for (const Contacts::Found& each : contacts.readings)
        if (&each != &found && each.binds()) misfits.push_back(unbound.misfit(each.fit));
    std::vector<const stack::Form*> forms;
    for (const stack::Form& each : unbound.closures())
        forms.push_back(&each);
    for (const stack::Form& each : misfits)
        forms.push_back(&each);
    const Others others(unbound, forms);
    std::vector<stack::TrialFit> ways = ways_to_lie(unbound, found.fit.reading);
    const stack::Jam& stated = found.fit.jams.front();
    stack::TrialFit swapped{
        .reading = found.fit.reading,
        .jams = {{.part = stated.against.face.part, .own = stated.against, .against = stated.own}}};
    if (!unbound.job().parts[stack::at(stated.against.face.part)].seats.empty())
        ways.push_back(swapped);
    const double now = others.chi_square(unbound.misfit(found.fit));
    std::optional<Suspect> best;
    for (const stack::TrialFit& way : ways) {
        const double drop = now - others.chi_square(unbound.misfit(way));
        if (drop <= (best ? best->chi_square_drop : kTold)) continue;
        best = Suspect{.name = reading.name, .kind = SuspectKind::touching, .at = reading.at};
        best->chi_square_drop = drop;
        best->lay = lying(unbound.job(), way);
        if (&way == &ways.back() && way.jams.size() == 1 &&
            way.jams[0].part == swapped.jams[0].part)
            best->slip = Slip{.kind = Slip::Kind::faces_swapped};
    }
    return best;
}

}  // namespace

OwnError own_error(const SizeColumns& sizes, const stack::Ties::Adjustment& adjustment,
                   Eigen::Index size) {
    const double variance = sizes.sd[size] * sizes.sd[size];
    const double cofactor = adjustment.cofactor[size];
    if (variance == 0.0 || cofactor <= kChecked * variance) return {};
    const double redundancy = cofactor / variance;
    const double residual = adjustment.residual[size];
    return {.off_by = -residual / redundancy,
            .sd = sizes.sd[size] / std::sqrt(redundancy),
            .redundancy = redundancy,
            .standardised = -residual / std::sqrt(cofactor)};
}

std::vector<Suspect> suspects(const Model& unbound, const Model& bound,
                              const stack::Ties::Adjustment& adjustment, const Contacts& contacts) {
    std::vector<bool> is_reading(bound.sizes().size(), false);
    for (std::size_t r = 0; r < bound.job().readings.size(); ++r) {
        is_reading[static_cast<std::size_t>(bound.reading_size(static_cast<int>(r)))] = true;
    }
    std::vector<Suspect> all;
    for (int size = 0; size < static_cast<int>(bound.sizes().size()); ++size) {
        const stack::Variable& variable = bound.sizes()[stack::at(size)];
        // Where a part lay in its play is no figure that anybody wrote.
        if (variable.floats || variable.measured == stack::Measured::lay) continue;
        if (own_error(bound.columns(), adjustment, size).redundancy > 0.0)
            all.push_back(
                single(bound, adjustment, size, is_reading[static_cast<std::size_t>(size)]));
    }
    for (const job::GaugeId gauge : job::indices(bound.job().gauges)) {
        if (const auto suspect = common_to_gauge(bound, gauge)) all.push_back(*suspect);
    }
    for (std::size_t r = 0; r < contacts.readings.size(); ++r) {
        const Contacts::Found& found = contacts.readings[r];
        if (!found.stated || found.fit.jams.empty() || !found.binds()) continue;
        if (const auto suspect = other_contact(unbound, contacts, r)) all.push_back(*suspect);
    }
    std::ranges::stable_sort(all, std::ranges::greater{}, &Suspect::chi_square_drop);
    return all;
}

std::vector<Suspect> not_told_apart(const std::vector<Suspect>& all) {
    std::vector<Suspect> alike;
    for (const Suspect& each : all) {
        if (all.front().chi_square_drop - each.chi_square_drop < kTold) alike.push_back(each);
    }
    std::ranges::stable_sort(alike,
                             [](const Suspect& a, const Suspect& b) { return rank(a) > rank(b); });
    return alike;
}

}  // namespace trialfit::survey
