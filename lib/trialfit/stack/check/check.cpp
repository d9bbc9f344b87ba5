// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <optional>
#include <trialfit/job/validity/doubts.hpp>
#include <trialfit/job/validity/validate.hpp>
#include <trialfit/job/validity/warnings.hpp>
#include <trialfit/stack/bounds.hpp>
#include <trialfit/stack/cautions.hpp>
#include <trialfit/stack/change/carry_out.hpp>
#include <trialfit/stack/check/check.hpp>
#include <trialfit/stack/check/cone_reach.hpp>
#include <trialfit/stack/check/requirements.hpp>
#include <trialfit/stack/clearance/clamping.hpp>
#include <trialfit/stack/clearance/clearances.hpp>
#include <trialfit/stack/metal.hpp>
#include <trialfit/stack/radial/radial.hpp>
#include <trialfit/stack/states.hpp>
#include <utility>

namespace trialfit::stack {

namespace {

// The record that the figures are about, without what is only supposed.
std::optional<RecordInForce> record_in_force(const job::Job& job) {
    const auto supposed =
        static_cast<std::size_t>(std::ranges::count_if(job.record, &job::RecordEntry::supposed));
    const std::size_t entries = job.in_force - std::min(job.in_force, supposed);
    if (entries == 0) return std::nullopt;
    return RecordInForce{.entries = entries,
                         .of = job.record.size() - supposed,
                         .date = job.record.at(entries - 1).date};
}

// A part that stood off its seat at the last trial fit, and what holds it.
std::vector<Warning> standing_off(const job::Job& job, const Options& options) {
    std::vector<Warning> found;
    for (const TrialFit& fit : options.readings) {
        const job::Reading& reading = job.readings.at(static_cast<std::size_t>(fit.reading));
        if (!fit.stands_off || reading.entries != job.in_force) continue;
        const StandsOff& off = *fit.stands_off;
        StoodOff told{.part = job.parts.at(off.part.at()).name,
                      .by = off.by,
                      .units = job.units,
                      .reading = reading.name};
        if (off.held)
            told.held = StoodOff::Holding{.own = job::name(job, off.held->own.face),
                                          .against = job::name(job, off.held->against.face),
                                          .stated = off.held_stated};
        found.emplace_back(std::move(told));
    }
    return found;
}

// How many of the readings bind the sizes.
std::size_t binding(const Options& options) {
    return static_cast<std::size_t>(std::ranges::count_if(
        options.readings, [](const TrialFit& fit) { return !fit.stands_off; }));
}

template <typename Message, typename Other>
void append(std::vector<Message>& to, std::vector<Other> more) {
    for (Other& each : more)
        to.emplace_back(std::move(each));
}

bool any_part(const job::Job& job, bool (*is)(const job::Part&)) {
    return std::ranges::any_of(job.parts, is);
}

// A hub that its key holds off its cone, or keeps from going on at all, is not seated, whatever
// clears: told before the answer, and not among its notes.
Verdict take_keys(std::vector<Note>& notes, std::vector<Warning>& into) {
    Verdict verdict = Verdict::holds;
    const auto take = [&](const auto& key, bool at_nominal) {
        into.emplace_back(key);
        verdict = worse(verdict, at_nominal ? Verdict::fails : Verdict::doubtful);
        return true;
    };
    std::erase_if(notes, [&](const Note& note) {
        if (const auto* key = std::get_if<KeyMayNotEnter>(&note))
            return take(*key, key->excess > kRounding);
        if (const auto* key = std::get_if<KeyHoldsOff>(&note)) return take(*key, true);
        if (const auto* key = std::get_if<KeyMayHoldOff>(&note)) return take(*key, false);
        return false;
    });
    return verdict;
}

std::vector<Note> notes(const Model& model, const Options& options) {
    const job::Job& job = model.job();
    const std::size_t readings = binding(options);
    std::vector<Note> notes = model.notes();
    if (model.closures().size() > readings)
        notes.emplace_back(GivenMoreThanOnce{.positions = model.closures().size() - readings});
    if (readings > 0)
        notes.emplace_back(AdjustedByReadings{.readings = readings});
    else if (options.readings.empty() && !job.readings.empty())
        notes.emplace_back(ReadingsSetAside{.readings = job.readings.size()});
    if (auto record = record_in_force(job)) notes.emplace_back(std::move(*record));
    const auto turns = [](const job::Part& part) { return part.turns; };
    const bool some_turn = any_part(job, turns) && !std::ranges::all_of(job.parts, turns);
    if (!job.running_clearance && some_turn) notes.emplace_back(NoRunningClearance{});
    append(notes, heat_notes(job));
    return notes;
}

std::string held_by_cone(const job::Job& job) {
    for (const job::Part& part : job.parts)
        if (part.turns && std::ranges::any_of(part.seats, [](const auto& seat) {
                return seat.kind == job::SeatKind::cone_on_cone;
            }))
            return part.name;
    return {};
}

std::vector<NotAssessed> not_assessed(const Model& model, const Options& options,
                                      const std::vector<RadialGap>& radial) {
    using By = ElsewhereJudged::By;
    const job::Job& job = model.job();
    const bool turns = any_part(job, [](const job::Part& part) { return part.turns; });
    const bool tightened = any_part(
        job, [](const job::Part& part) { return !part.threads.empty() || !part.cones.empty(); });
    std::vector<NotAssessed> list;
    if (turns) list = {LeftOut::burst_and_speed, LeftOut::balance};
    append(list, radial_not_assessed(model, radial));
    append(list, heat_not_assessed(job));
    append(list, draw_up_not_assessed(model));
    if (tightened)
        list.emplace_back(ElsewhereJudged{.by = By::seat, .asked = job.seat.has_value()});
    if (turns)
        list.emplace_back(ElsewhereJudged{.by = By::timing, .asked = job.timing.has_value()});
    if (job.spin) list.emplace_back(ElsewhereJudged{.by = By::spin});
    if (!job.readings.empty() && options.readings.empty())
        list.emplace_back(LeftOut::reading_agreement);
    if (!job.feelers.empty()) list.emplace_back(ElsewhereJudged{.by = By::survey});
    append(list, clamps_not_assessed(job));
    return list;
}

// Of each group of closures that no sizes within their limits can meet, the reading furthest off;
// the readings' closures come after the model's `own`.
job::Complaints contradicted(const Model& bound, std::size_t own, const Options& options) {
    const job::Job& job = bound.job();
    job::Complaints complaints;
    for (const std::vector<int>& group : bound.ties().contradictions()) {
        std::size_t worst = own;
        double furthest = -1.0;
        for (const int closure : group) {
            const auto c = static_cast<std::size_t>(closure);
            const double misfit = std::abs(value(bound.closures()[c], bound.columns().middle));
            if (c < own || misfit <= furthest) continue;
            worst = c;
            furthest = misfit;
        }
        const auto which = static_cast<std::size_t>(options.readings.at(worst - own).reading);
        const job::Reading& reading = job.readings.at(which);
        const double should =
            reading.is.size.middle() + value(bound.closures()[worst], bound.columns().middle);
        complaints.push_back(
            {.at = reading.at,
             .fault =
                 fmt::format("the readings and the sizes contradict each other: '{}' is {}, the "
                             "sizes as written give {:.4g}. Either may be wrong",
                             reading.name, reading.is.written, should),
             .mend = {},
             .remedy = job::Remedy::weigh_readings});
    }
    return complaints;
}

// Whether two parts have rings: of those the search says that none meet; of no rings it says
// nothing.
bool may_meet(const job::Job& job) {
    return std::ranges::count_if(job.parts,
                                 [](const job::Part& part) { return !part.rings.empty(); }) > 1;
}

}  // namespace

// Readings bind the sizes of the parts as they were when they were taken; work done since then has
// left those sizes where they are (Job::before).
std::variant<Model, job::Complaints> model_for(const job::Job& job, const Options& options) {
    if (job::Complaints complaints = job::validate(job); !complaints.empty()) return complaints;
    for (const TrialFit& fit : options.readings)
        if (fit.reading < 0 || static_cast<std::size_t>(fit.reading) >= job.readings.size())
            return job::Complaints{
                {.fault = "a reading that is to bind the sizes is none that the job has",
                 .mend = "take the readings from survey::evidence of this job"}};
    if (!(options.inflate > 0.0) || !std::isfinite(options.inflate))
        return job::Complaints{{.fault = "the factor on RSS half-widths is not above 0, or not "
                                         "finite",
                                .mend = "1.5 is a usual one"}};
    // No reading was ever taken of planned work.
    const auto own = [&](const TrialFit& fit) {
        return job.planned.empty() &&
               job.readings.at(static_cast<std::size_t>(fit.reading)).entries == job.in_force;
    };
    Options now = options;
    std::erase_if(now.readings, [&](const TrialFit& fit) { return fit.stands_off || !own(fit); });
    auto built = Model::of(job);
    if (job.before != nullptr) {
        Options then = options;
        std::erase_if(then.readings, own);
        auto before = model_for(*job.before, then);
        if (before.index() != 0) return before;
        built = model_after(std::get<Model>(before), job);
    }
    if (built.index() != 0) return built;
    const Model& model = std::get<Model>(built);
    if (job::Complaints complaints = model.contradictions(); !complaints.empty()) return complaints;
    if (now.readings.empty()) return built;
    std::vector<Form> misfits;
    misfits.reserve(now.readings.size());
    for (const TrialFit& fit : now.readings)
        misfits.push_back(model.misfit(fit));
    Model bound = model.bound_by(misfits);
    if (bound.ties().contradictions().empty()) return bound;
    return contradicted(bound, model.closures().size(), now);
}

std::variant<CheckAnswer, job::Complaints> check(const job::Job& job, const Options& options) {
    auto built = model_for(job, options);
    if (auto* complaints = std::get_if<job::Complaints>(&built)) return std::move(*complaints);
    return check(std::get<Model>(built), options);
}

bool may_change(const job::Job& job) {
    return std::ranges::any_of(job.parts, [](const job::Part& part) {
        const bool metal = !part.cuts.empty() || !part.laps.empty() || !part.skims.empty();
        return metal || (part.centred && part.centred->centre_to) ||
               std::ranges::any_of(part.seats, [](const job::Seat& seat) {
                   return seat.shims && !seat.shims->stock.empty();
               });
    });
}

CheckAnswer check(const Model& cold, const Options& options) {
    const job::Job& job = cold.job();
    const std::vector<Model> states = in_states(cold);
    const Model& model = states.front();

    CheckAnswer answer;
    answer.title = job.title;
    answer.file = job.file;
    answer.units = job.units;
    answer.judge = options.judge;
    answer.inflate = options.inflate;
    answer.states = states_told(cold);
    answer.warnings = standing_off(job, options);
    if (!answer.warnings.empty()) answer.verdict = Verdict::fails;
    append(answer.warnings, job::warnings(job));
    append(answer.warnings, job::doubts(job));
    for (const job::LimitPassed& passed : job::limits_passed(job))
        answer.verdict = worse(answer.verdict, passed.surely ? Verdict::fails : Verdict::doubtful);
    if (!job::keeps_not_judged(job).empty())
        answer.verdict = worse(answer.verdict, Verdict::not_judged);
    if (!model.warnings().empty()) answer.verdict = worse(answer.verdict, Verdict::fails);
    answer.notes = notes(model, options);
    std::vector<Warning> before_all(model.warnings().begin(), model.warnings().end());
    answer.verdict = worse(answer.verdict, take_keys(answer.notes, before_all));
    for (ConesMiss& miss : cones_that_miss(job)) {
        answer.verdict = worse(answer.verdict, miss.surely ? Verdict::fails : Verdict::doubtful);
        before_all.emplace_back(std::move(miss));
    }
    answer.verdict_apart = answer.verdict;
    Search search = clearances(states, options.judge, options.inflate);
    const auto take = [&answer](const auto& pair, NotJudged::Of what) {
        answer.verdict = worse(answer.verdict, pair.verdict);
        if (pair.verdict != Verdict::not_judged) return;
        NotJudged why{.of = what, .check = {}, .why = pair.not_judged_for.value()};
        if (std::ranges::find(answer.not_judged, why) == answer.not_judged.end())
            answer.not_judged.push_back(std::move(why));
    };
    for (const Clearance& pair : search.pairs)
        take(pair, NotJudged::Of::clearances);
    answer.first_contact = first_contact(model, search.pairs);
    std::vector<RadialGap> radial = radial_gaps(states, options.judge, options.inflate);
    append(answer.notes, radial_notes(search.pairs, radial));
    answer.clearances = listed(std::move(search.pairs), options.all_pairs);
    answer.implied_left_out = search.implied_left_out;
    const auto ask = [&](const auto& each, JudgedId id) {
        answer.checks.push_back(stack::answer(states, each, options.judge, options.inflate));
        CheckResult& found = answer.checks.back();
        found.id = id;
        answer.verdict = worse(answer.verdict, found.verdict);
        if (found.verdict == Verdict::not_judged)
            answer.not_judged.push_back(
                {.of = NotJudged::Of::check, .check = found.name, .why = *found.not_judged_for});
    };
    for (std::size_t c = 0; c < job.checks.size(); ++c)
        ask(job.checks[c], CheckId{c});
    for (const RadialGap& each : radial)
        take(each, NotJudged::Of::radial_gaps);
    for (std::size_t c = 0; c < job.air_gaps.size(); ++c)
        ask(job.air_gaps[c], AirGapId{c});
    for (std::size_t c = 0; c < model.automatic_checks().size(); ++c)
        ask(model.automatic_checks()[c], ClampId{c});
    answer.held_by_cone = held_by_cone(job);
    answer.warnings.insert(answer.warnings.begin(), before_all.begin(), before_all.end());
    answer.not_assessed = not_assessed(cold, options, radial);
    answer.cautions = cautions(job);
    answer.may_change = may_change(job);
    answer.radial = listed(std::move(radial), options.all_pairs);
    if (answer.checks.empty() && !may_meet(job))
        answer.verdict = worse(answer.verdict, Verdict::not_judged);
    return answer;
}

}  // namespace trialfit::stack
