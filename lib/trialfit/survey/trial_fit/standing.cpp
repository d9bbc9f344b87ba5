// SPDX-License-Identifier: MIT
#include <algorithm>
#include <cmath>
#include <limits>
#include <trialfit/stack/clearance/clearances.hpp>
#include <trialfit/stack/model/index.hpp>
#include <trialfit/survey/suspect/others.hpp>
#include <trialfit/survey/trial_fit/standing.hpp>

namespace trialfit::survey {

namespace {

using stack::at;
using stack::Clearance;
using stack::Jam;
using stack::Model;
using stack::StandsOff;
using stack::TrialFit;

constexpr double kBeyondChance = 3.29;

bool was_fitted(const job::Reading& reading, job::PartId part) {
    return reading.fitted.empty() || std::ranges::binary_search(reading.fitted, part);
}

// The misfit of the reading seated, given the readings of all others that stand.
Others::Given seated_misfit(const Model& model, const Contacts& contacts, const TrialFit& seated) {
    std::vector<stack::Form> misfits;
    for (const Contacts::Found& each : contacts.readings) {
        if (each.fit.reading != seated.reading && each.binds())
            misfits.push_back(model.misfit(each.fit));
    }
    std::vector<const stack::Form*> forms;
    for (const stack::Form& each : model.closures())
        forms.push_back(&each);
    for (const stack::Form& each : misfits)
        forms.push_back(&each);
    return Others(model, forms).given(model.misfit(seated));
}

// Whether sizes within their limits can give all readings that stand.
bool possible(const Model& model, const Contacts& contacts) {
    std::vector<stack::Form> misfits;
    for (const Contacts::Found& each : contacts.readings)
        if (each.binds()) misfits.push_back(model.misfit(each.fit));
    return model.bound_by(misfits).ties().contradictions().empty();
}

// Which part, moved outboard by `by`, would take the reading to what it is; -1 where none.
std::optional<job::PartId> moved_part(const Model& model, const TrialFit& seated, double by) {
    const job::Reading& reading = model.job().readings[at(seated.reading)];
    std::optional<job::PartId> found;
    for (const job::PartId part : model.way(seated, reading.from, reading.to).seats) {
        const bool carries_to = model.carries(part, reading.to.part);
        if ((by > 0.0) == carries_to) found = std::max(found.value_or(part), part);
    }
    return found;
}

void find_holder(const Model& model, const job::Reading& reading, StandsOff& stands) {
    double tightest = std::numeric_limits<double>::infinity();
    for (const Clearance& pair : stack::clearances(model, stack::Judge::worst, 1.0).pairs) {
        if (pair.outboard_of.part != stands.part || !was_fitted(reading, pair.inboard_of.part))
            continue;
        const bool stated = reading.touching && reading.touching->outboard.part == stands.part &&
                            job::FaceRef{pair.inboard_of.part, pair.inboard_end.face} ==
                                reading.touching->inboard &&
                            job::FaceRef{pair.outboard_of.part, pair.outboard_end.face} ==
                                reading.touching->outboard;
        if (!stated && (stands.held_stated || pair.gap.nominal >= tightest)) continue;
        tightest = pair.gap.nominal;
        stands.held_stated = stated;
        stands.clears = pair.gap.nominal;
        stands.held = Jam{.part = stands.part,
                          .own = stack::outboard_station(pair),
                          .against = stack::inboard_station(pair)};
    }
}

}  // namespace

void find_standing_off(const Model& model, Contacts& contacts) {
    for (Contacts::Found& found : contacts.readings) {
        const job::Reading& reading = model.job().readings[at(found.fit.reading)];
        if (reading.entries == 0) continue;
        const TrialFit seated{.reading = found.fit.reading, .jams = {}};
        // Where a jam that the sizes allow explains it, that stands.
        const Others::Given as_found = seated_misfit(model, contacts, found.fit);
        const bool by_chance = std::abs(as_found.is) <= kBeyondChance * as_found.sd;
        if (by_chance && possible(model, contacts)) continue;
        const Others::Given given = seated_misfit(model, contacts, seated);
        // The misfit is what the reading ought to be less what it is.
        const double by = -given.is;
        const std::optional<job::PartId> part = moved_part(model, seated, by);
        if (!part || (!by_chance && std::abs(by) <= kBeyondChance * given.sd)) continue;
        StandsOff stands{.part = *part, .by = std::abs(by), .doubt = given.sd};
        find_holder(model, reading, stands);
        found.fit.jams.clear();
        found.fit.stands_off = stands;
        found.next.reset();
        found.odds_to_next.reset();
    }
}

}  // namespace trialfit::survey
