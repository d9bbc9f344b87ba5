// SPDX-License-Identifier: MIT
#include <algorithm>
#include <trialfit/job/validity/validate.hpp>
#include <trialfit/job/validity/warnings.hpp>
#include <trialfit/stack/bounds.hpp>
#include <trialfit/stack/cautions.hpp>
#include <trialfit/timing/engine.hpp>
#include <trialfit/timing/spark/advance.hpp>
#include <trialfit/timing/spark/firing.hpp>
#include <trialfit/timing/spark/marks.hpp>
#include <trialfit/timing/spark/slot.hpp>
#include <trialfit/timing/spark/top.hpp>
#include <trialfit/timing/timing.hpp>
#include <trialfit/trade/engine/timing_marks.hpp>
#include <utility>

namespace trialfit::timing {

namespace {

// Takes a result apart: its value, or its reason as a complaint about that place.
template <typename Value>
std::optional<Value> taken(const trade::Result<Value>& result, job::Place at,
                           job::Complaints& complaints) {
    if (result) return *result;
    complaints.push_back({.at = at, .fault = result.reason(), .mend = {}});
    return std::nullopt;
}

job::Complaints no_section() {
    return {{.at = {},
             .fault = "the job has no 'timing' section",
             .mend = "add one: 'timing: {stroke: SIZE, rod: SIZE, fire_at: SIZE}'"}};
}

std::optional<StatorTurns> stator_turns(const job::Timing& timing) {
    if (!timing.turns) return std::nullopt;
    return StatorTurns{.earlier = trade::stator_turn_for_earlier(*timing.turns),
                       .later = trade::stator_turn_for_later(*timing.turns)};
}

TimingAnswer about(const job::Job& job, const Engine& engine) {
    TimingAnswer out;
    out.file = job.file;
    out.title = job.title;
    out.units = job.units;
    out.warnings = job::warnings(job);
    out.stroke = engine.sizes.stroke.nominal;
    out.rod = engine.sizes.rod.nominal;
    out.pin_offset = engine.sizes.offset.nominal;
    out.plug_tilt_deg = engine.sizes.tilt_deg.nominal;
    out.gauge = engine.gauge;
    out.gauge_half_width = engine.gauge_half_width;
    out.turns = engine.timing.turns;
    out.stator_turns = stator_turns(engine.timing);
    return out;
}

// Firing point and readings, which everything else is held to.
void answer_points(const Engine& engine, TimingAnswer& out, job::Complaints& complaints) {
    const job::Timing& timing = engine.timing;
    if (timing.fire_at)
        out.firing = taken(firing(engine, *timing.fire_at), timing.fire_at->value.at, complaints);
    if (timing.fires_now)
        out.now =
            taken(fires_now(engine, *timing.fires_now), timing.fires_now->value.at, complaints);
    if (timing.stops)
        out.top.by_stops = taken(top_by_stops(engine, *timing.stops), timing.stops->at, complaints);
    if (timing.dwell)
        out.top.by_dwell = taken(top_by_dwell(engine, *timing.dwell), timing.dwell->at, complaints);
    if (auto dwells = taken(gauge_dwells(engine), timing.at, complaints))
        out.top.gauges = std::move(*dwells);
    const double fixed_deg = out.firing ? out.firing->set.degrees : 0.0;
    const job::Place curves_at = timing.curves.empty() ? timing.at : timing.curves.front().at;
    if (auto all = taken(settings(engine, fixed_deg), curves_at, complaints))
        out.settings = std::move(*all);
}

std::vector<NotJudged> not_judged(const job::Timing& timing, const TimingAnswer& answer) {
    std::vector<NotJudged> out;
    if (answer.slot && !answer.slot->turn)
        out.push_back(timing.fire_at ? NotJudged::slot_without_fires_now
                                     : NotJudged::slot_without_fire_at);
    if (answer.slot && answer.slot->turn && answer.slot->from_middle)
        out.push_back(NotJudged::screw_in_its_slot);
    if (answer.firing && answer.firing->allowed_deg && !answer.firing->gauge_keeps_it)
        out.push_back(NotJudged::limits_without_gauge);
    return out;
}

Verdict verdict_of(const TimingAnswer& answer) {
    Verdict worst = answer.not_judged.empty() ? Verdict::holds : Verdict::not_judged;
    if (answer.slot && answer.slot->turn) worst = stack::worse(worst, answer.slot->turn->verdict);
    if (answer.firing)
        worst = stack::worse(worst, answer.firing->gauge_keeps_it.value_or(Verdict::holds));
    return worst;
}

std::vector<Note> notes(const Engine& engine, const TimingAnswer& answer) {
    const job::Timing& timing = engine.timing;
    std::vector<Note> out;
    const auto note = [&out](bool applies, Remark remark) {
        if (applies) out.emplace_back(remark);
    };
    note(!timing.gauge && (!answer.firing || answer.firing->gauge.empty()), Remark::no_gauge);
    if (answer.firing && answer.firing->gauge != answer.gauge && !answer.gauge.empty())
        out.emplace_back(ReadByOther{.gauge = answer.firing->gauge});
    note(!timing.plug_tilt, Remark::no_plug_tilt);
    note(answer.top.by_stops && !timing.stops->holds && !timing.gauge, Remark::stop_holds_exactly);
    note(!timing.marks.empty() && !timing.fire_at, Remark::marks_without_fire_at);
    note(!timing.turns && (timing.slot || !timing.marks.empty() || timing.rim_dia),
         Remark::no_direction);
    if (answer.slot) {
        note(answer.slot->from_middle && !answer.slot->turn, Remark::screw_in_middle);
        note(!answer.slot->screw, Remark::slot_is_travel);
    }
    const bool beyond =
        std::any_of(answer.settings.begin(), answer.settings.end(), [](const Setting& setting) {
            return std::any_of(setting.sparks.begin(), setting.sparks.end(),
                               [](const Spark& spark) { return !spark.covered; });
        });
    note(beyond, Remark::curve_goes_on_flat);
    return out;
}

}  // namespace

std::variant<TimingAnswer, job::Complaints> timing(const job::Job& job) {
    if (job::Complaints faults = job::validate_timing(job); !faults.empty()) return faults;
    if (!job.timing) return no_section();
    const job::Timing& timing = *job.timing;
    job::Complaints complaints;
    const auto engine = taken(engine_of(job, timing), timing.at, complaints);
    if (!engine) return complaints;
    TimingAnswer out = about(job, *engine);
    answer_points(*engine, out, complaints);
    if (!complaints.empty()) return complaints;
    const Firing* const firing = out.firing ? &*out.firing : nullptr;
    const FiresNow* const now = out.now ? &*out.now : nullptr;
    std::optional<double> turn_deg;
    if (firing != nullptr && now != nullptr) turn_deg = firing->set.degrees - now->degrees;
    out.marks = marks(*engine, firing, turn_deg);
    if (timing.slot) out.slot = slot_travel(*engine, *timing.slot, firing, now);
    out.not_judged = not_judged(timing, out);
    out.verdict = verdict_of(out);
    out.comparisons = comparisons(out.settings);
    out.notes = notes(*engine, out);
    out.cautions = stack::cautions(job);
    return out;
}

}  // namespace trialfit::timing
