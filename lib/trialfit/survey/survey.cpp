// SPDX-License-Identifier: MIT
#include <algorithm>
#include <cmath>
#include <cstddef>
#include <trialfit/job/validity/warnings.hpp>
#include <trialfit/numerics/distribution/chi_square.hpp>
#include <trialfit/stack/bounds.hpp>
#include <trialfit/stack/check/check.hpp>
#include <trialfit/stack/model/index.hpp>
#include <trialfit/survey/feelers/feelers.hpp>
#include <trialfit/survey/survey.hpp>
#include <trialfit/survey/suspect/freed.hpp>
#include <trialfit/survey/suspect/judging.hpp>
#include <trialfit/survey/suspect/next.hpp>
#include <trialfit/survey/suspect/splitting.hpp>
#include <trialfit/survey/suspect/suspects.hpp>
#include <trialfit/survey/trial_fit/contacts.hpp>
#include <trialfit/survey/trial_fit/standing.hpp>

namespace trialfit::survey {

namespace {

using stack::at;

using stack::Model;

// Smallest error that would be noticed, in sd of the difference: a false alarm 1 in 1,000 (3.29)
// and a miss 1 in 4 (0.67), rounded up as the trade of adjustment does (W. Baarda's reliability).
constexpr double kNoticed = 4.0;

bool floats(const Model& model, const Contacts::Found& found) {
    const job::Reading& reading = model.job().readings[at(found.fit.reading)];
    for (const job::PartId part : model.way(found.fit, reading.from, reading.to).seats) {
        for (const job::Seat& seat : model.job().parts[at(part)].seats) {
            if (seat.play) return true;
        }
    }
    return false;
}

ReadingFound found_of(const Model& bound, const stack::Ties::Adjustment& adjustment,
                      const Contacts::Found& contact) {
    const job::Job& job = bound.job();
    const job::Reading& reading = job.readings[at(contact.fit.reading)];
    const int size = bound.reading_size(contact.fit.reading);
    const OwnError error = own_error(bound.columns(), adjustment, size);
    ReadingFound found{.name = reading.name,
                       .from = job::name(job, reading.from),
                       .to = job::name(job, reading.to)};
    found.at = reading.at;
    found.written = reading.is.written;
    found.is = reading.is.size.middle();
    found.half_width = reading.is.size.half_width();
    found.off_by = error.off_by;
    found.should_be = found.is - error.off_by;
    const double own = bound.columns().sd[size];
    found.should_be_sd = std::sqrt(std::max(0.0, error.sd * error.sd - own * own));
    found.standardised = error.standardised;
    found.redundancy = error.redundancy;
    if (error.redundancy > 0.0) found.smallest_noticed = kNoticed * error.sd;
    if (!contact.fit.jams.empty()) {
        const stack::Jam& jam = contact.fit.jams.front();
        found.touching_inboard = station_name(job, jam.against);
        found.touching_outboard = station_name(job, jam.own);
        found.jammed_part = job.parts[at(jam.part)].name;
    }
    for (std::size_t i = 1; i < contact.fit.jams.size(); ++i) {
        const stack::Jam& jam = contact.fit.jams[i];
        found.also_jammed.push_back({.part = job.parts[at(jam.part)].name,
                                     .inboard = station_name(job, jam.against),
                                     .outboard = station_name(job, jam.own)});
    }
    found.touching_stated = contact.stated;
    found.odds_to_next = contact.odds_to_next;
    if (contact.next) found.next_best = lying(job, *contact.next);
    found.pushed_matters = floats(bound, contact);
    found.pushed_stated = reading.pushed != job::Pushed::not_stated;
    return found;
}

std::vector<SizeFound> sizes_found(const Model& bound, const stack::Ties::Adjustment& adjustment) {
    std::vector<SizeFound> sizes;
    const stack::SizeColumns& columns = bound.columns();
    for (int i = 0; i < static_cast<int>(bound.sizes().size()); ++i) {
        if (!bound.ties().tied(i) || columns.sd[i] == 0.0) continue;
        const stack::Variable& variable = bound.sizes()[at(i)];
        SizeFound found{.label = variable.label, .written = variable.written, .at = variable.at};
        found.as_written = columns.middle[i];
        found.adjusted = columns.middle[i] + adjustment.residual[i];
        found.sd_before = columns.sd[i];
        found.sd_after =
            std::sqrt(std::max(0.0, columns.sd[i] * columns.sd[i] - adjustment.cofactor[i]));
        const OwnError error = own_error(columns, adjustment, i);
        found.standardised = error.standardised;
        found.redundancy = error.redundancy;
        sizes.push_back(std::move(found));
    }
    return sizes;
}

std::vector<UnmeasuredFound> unmeasured_found(const Model& bound) {
    std::vector<UnmeasuredFound> found;
    const auto n = static_cast<Eigen::Index>(bound.sizes().size());
    for (int i = 0; i < static_cast<int>(n); ++i) {
        const stack::Variable& variable = bound.sizes()[at(i)];
        // Where a part lay in its play is no figure that anybody could write.
        if (!variable.size.is_unmeasured() || variable.measured == stack::Measured::lay) continue;
        stack::FormBuilder itself;
        itself.add(i, 1.0);
        const stack::Form form = bound.unmeasured().known(std::move(itself).build(n));
        UnmeasuredFound each{
            .label = variable.label, .at = variable.at, .value = std::nullopt, .worst = {}};
        if (!bound.unmeasured().open(form)) {
            constexpr double kNoInflation = 1.0;
            const stack::Fixed value =
                stack::fixed_bounds(bound.ties(), bound.columns(), form, kNoInflation);
            each.value = value.nominal;
            each.worst = value.worst;
            // No part moves by less than nothing.
            if (variable.floats) each.worst.lo = std::max(0.0, each.worst.lo);
        }
        found.push_back(std::move(each));
    }
    return found;
}

// The misfits of the readings that bind sizes.
std::vector<stack::Form> misfits_of(const Model& model, const Contacts& contact) {
    std::vector<stack::Form> misfits;
    for (const Contacts::Found& found : contact.readings)
        if (found.binds()) misfits.push_back(model.misfit(found.fit));
    return misfits;
}

// Names what explains a disagreement, and says how sure that is.
void judge(SurveyAnswer& answer, const Model& model, const Model& bound,
           const stack::Ties::Adjustment& adjustment, const Contacts& contact) {
    const bool possible = bound.ties().contradictions().empty();
    if (answer.freedom == 0 && possible) return;
    if (answer.probability >= kByChance && possible) {
        answer.judgement = Judgement::agree;
        return;
    }
    std::vector<Suspect> all = suspects(model, bound, adjustment, contact);
    if (all.empty()) {
        answer.judgement = Judgement::contradict;
        return;
    }
    const double left = std::max(0.0, answer.chi_square - all.front().chi_square_drop);
    // With nothing left to spare, the rest agrees whichever is left out.
    answer.one_explains =
        answer.freedom < 2 || numerics::chi_square_survival(left, answer.freedom - 1) >= kByChance;
    if (!answer.one_explains) {
        std::vector<Suspect> freed = freed_suspects(model, answer.chi_square);
        answer.one_explains = !freed.empty();
        if (answer.one_explains) all = std::move(freed);
    }
    answer.suspects = not_told_apart(all);
    answer.judgement = answer.suspects.size() == 1 && answer.one_explains ? Judgement::suspect
                                                                          : Judgement::cannot_tell;
    if (answer.judgement == Judgement::suspect && all.size() > 1)
        answer.odds_to_next =
            std::exp(std::min(700.0, (all[0].chi_square_drop - all[1].chi_square_drop) / 2.0));
    if (answer.one_explains) answer.split = splitting_measurement(model, answer.suspects);
}

void tell_standing_off(SurveyAnswer& answer, const job::Job& job, const Contacts& contact) {
    for (const Contacts::Found& found : contact.readings) {
        if (!found.fit.stands_off) continue;
        const stack::StandsOff& stands = *found.fit.stands_off;
        StandsOffFound told{.reading = job.readings[at(found.fit.reading)].name,
                            .part = job.parts[at(stands.part)].name,
                            .by = stands.by,
                            .doubt = stands.doubt};
        if (stands.held) {
            told.inboard = station_name(job, stands.held->against);
            told.outboard = station_name(job, stands.held->own);
            told.stated = stands.held_stated;
            told.clears = stands.clears;
        }
        answer.stands_off.push_back(std::move(told));
    }
}

// Once a reading is named, the others are held against the rest without it: an error spreads over
// all that it is tied to, and would make good readings look bad.
void set_suspect_aside(SurveyAnswer& answer, const Model& model, const Contacts& contact) {
    if (answer.judgement != Judgement::suspect) return;
    if (answer.suspects.front().kind != SuspectKind::reading) return;
    const auto is_suspect = [&](const Contacts::Found& found) {
        return answer.suspects.front().size ==
               model.sizes()[at(model.reading_size(found.fit.reading))].id;
    };
    std::vector<stack::Form> misfits;
    for (const Contacts::Found& found : contact.readings) {
        if (!is_suspect(found) && found.binds()) misfits.push_back(model.misfit(found.fit));
    }
    const Model bound = model.bound_by(misfits);
    const stack::Ties::Adjustment adjustment =
        bound.ties().adjust(bound.columns(), bound.columns().middle);
    for (std::size_t r = 0; r < contact.readings.size(); ++r) {
        if (is_suspect(contact.readings[r]) || contact.readings[r].fit.stands_off) continue;
        answer.readings[r] = found_of(bound, adjustment, contact.readings[r]);
    }
}

// A reading that is off as it would be had a part on its way stood off its seat: dirt, a key too
// tall, a nut on the shaft end. Seen by readings with and without the key, before and after torque.
void name_parts_not_home(SurveyAnswer& answer, const Model& bound, const Contacts& contact) {
    for (Suspect& suspect : answer.suspects) {
        for (const Contacts::Found& found : contact.readings) {
            const job::Reading& reading = bound.job().readings[at(found.fit.reading)];
            if (suspect.kind != SuspectKind::reading || reading.name != suspect.name ||
                !found.fit.jams.empty())
                continue;
            for (const job::PartId part : bound.way(found.fit, reading.from, reading.to).seats) {
                const std::vector<job::Seat>& seats = bound.job().parts[at(part)].seats;
                if (seats.empty() || seats.front().kind != job::SeatKind::cone_on_cone) continue;
                const bool moves_to = bound.carries(part, reading.to.part);
                const double stood_off = moves_to ? suspect.off_by : -suspect.off_by;
                if (stood_off <= 0.0) continue;
                suspect.not_home = bound.job().parts[at(part)].name;
                suspect.stood_off = stood_off;
            }
        }
    }
}

std::vector<Note> notes_of(const Model& bound, const SurveyAnswer& answer,
                           const Contacts& contact) {
    std::vector<Note> notes(bound.notes().begin(), bound.notes().end());
    for (const ReadingFound& reading : answer.readings)
        if (reading.pushed_matters && !reading.pushed_stated)
            notes.emplace_back(PushNotStated{.reading = reading.name});
    for (const Contacts::Found& found : contact.readings)
        if (found.undecided && found.next)
            notes.emplace_back(
                ContactNotKnown{.reading = bound.job().readings[at(found.fit.reading)].name,
                                .one = lying(bound.job(), found.fit),
                                .other = lying(bound.job(), *found.next)});
    return notes;
}

}  // namespace

static bool nothing_measured_since(const job::Job& job) {
    return job.before != nullptr && job.readings.size() == job.before->readings.size();
}

// The model that the readings of the job's own state are held against.
static std::variant<Model, job::Complaints> model_of(const job::Job& job) {
    if (job.before == nullptr) return Model::of(job);
    auto earlier = evidence(*job.before);
    if (auto* complaints = std::get_if<job::Complaints>(&earlier)) return std::move(*complaints);
    return stack::model_for(
        job, {.readings = std::move(std::get<std::vector<stack::TrialFit>>(earlier))});
}

static std::variant<SurveyAnswer, job::Complaints> survey_of_sizes(const job::Job& job);

// The survey of the parts as they were before the last work, where it disagrees.
static std::optional<SurveyAnswer> earlier_disagreement(const job::Job& job) {
    if (job.before == nullptr) return std::nullopt;
    auto outcome = survey_of_sizes(*job.before);
    auto* const answer = std::get_if<SurveyAnswer>(&outcome);
    if (answer == nullptr || !disagrees(answer->judgement)) return std::nullopt;
    answer->notes.emplace_back(EarlierFirst{.date = job.record.at(job.in_force - 1).date});
    return std::move(*answer);
}

static std::variant<SurveyAnswer, job::Complaints> survey_of_sizes(const job::Job& job) {
    if (nothing_measured_since(job)) {
        auto earlier = survey_of_sizes(*job.before);
        auto* const answer = std::get_if<SurveyAnswer>(&earlier);
        if (answer != nullptr && job.planned.empty() && !nothing_measured_since(*job.before))
            answer->notes.emplace_back(
                NothingMeasuredSince{.date = job.record.at(job.in_force - 1).date});
        return earlier;
    }
    auto built = model_of(job);
    if (auto* complaints = std::get_if<job::Complaints>(&built)) {
        if (auto earlier = earlier_disagreement(job)) return std::move(*earlier);
        return std::move(*complaints);
    }
    const Model& model = std::get<Model>(built);
    auto laid = contacts(model);
    if (auto* complaints = std::get_if<job::Complaints>(&laid)) return std::move(*complaints);
    auto& contact = std::get<Contacts>(laid);
    find_standing_off(model, contact);
    const Model bound = model.bound_by(misfits_of(model, contact));
    const stack::Ties::Adjustment adjustment =
        bound.ties().adjust(bound.columns(), bound.columns().middle);

    SurveyAnswer answer{.file = job.file, .title = job.title, .units = job.units};
    answer.chi_square = adjustment.chi_square;
    answer.freedom = adjustment.freedom;
    answer.probability = numerics::chi_square_survival(adjustment.chi_square, adjustment.freedom);
    if (adjustment.freedom > 0)
        answer.reference_variance = adjustment.chi_square / adjustment.freedom;
    for (const Contacts::Found& found : contact.readings)
        answer.readings.push_back(found_of(bound, adjustment, found));
    answer.sizes = sizes_found(bound, adjustment);
    if (bound.ties().contradictions().empty()) answer.unmeasured = unmeasured_found(bound);
    judge(answer, model, bound, adjustment, contact);
    tell_standing_off(answer, job, contact);
    name_parts_not_home(answer, bound, contact);
    set_suspect_aside(answer, model, contact);
    answer.measure_next = measure_next(bound, adjustment);
    for (Note& note : notes_of(bound, answer, contact))
        answer.notes.push_back(std::move(note));
    return answer;
}

std::variant<SurveyAnswer, job::Complaints> survey(const job::Job& job) {
    auto outcome = survey_of_sizes(job);
    auto* const answer = std::get_if<SurveyAnswer>(&outcome);
    if (answer == nullptr) return outcome;
    answer->warnings = job::warnings(job);
    if (auto planned = job::planned_warning(job, true))
        answer->warnings.front() = std::move(*planned);
    if (job.feelers.empty()) return outcome;
    // Feelers are about the parts as they came.
    const job::Job* first = &job;
    while (first->before != nullptr)
        first = first->before.get();
    const auto built = Model::of(*first);
    if (const auto* complaints = std::get_if<job::Complaints>(&built)) return *complaints;
    answer->feelers = feelers_found(std::get<Model>(built));
    return outcome;
}

bool all_agree(const SurveyAnswer& answer) {
    return !disagrees(answer.judgement) && answer.stands_off.empty() &&
           std::ranges::none_of(answer.feelers, [](const FeelersFound& each) {
               return disagrees(each.judgement) || each.against_diameters;
           });
}

bool limits_can_be_kept(const SurveyAnswer& answer) {
    const auto fails = [](const FeelerLimit& limit) {
        return limit.can_reach == SettingReach::cannot || limit.can_keep == SettingReach::cannot ||
               limit.can_stay == SettingReach::cannot;
    };
    return std::ranges::none_of(answer.feelers, [&](const FeelersFound& each) {
        return std::ranges::any_of(each.limits, fails);
    });
}

std::variant<std::vector<stack::TrialFit>, job::Complaints> evidence(const job::Job& job) {
    std::vector<stack::TrialFit> fits;
    if (job.readings.empty()) return fits;
    if (job.before != nullptr) {
        auto earlier = evidence(*job.before);
        if (earlier.index() != 0) return earlier;
        fits = std::move(std::get<std::vector<stack::TrialFit>>(earlier));
        if (nothing_measured_since(job)) return fits;
    }
    auto built = model_of(job);
    if (auto* complaints = std::get_if<job::Complaints>(&built)) return std::move(*complaints);
    auto laid = contacts(std::get<Model>(built));
    if (auto* complaints = std::get_if<job::Complaints>(&laid)) return std::move(*complaints);
    find_standing_off(std::get<Model>(built), std::get<Contacts>(laid));
    for (Contacts::Found& found : std::get<Contacts>(laid).readings)
        if (!found.undecided) fits.push_back(std::move(found.fit));
    return fits;
}

}  // namespace trialfit::survey
