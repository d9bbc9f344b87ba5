// SPDX-License-Identifier: MIT
#include <algorithm>
#include <trialfit/job/validity/validate.hpp>
#include <trialfit/spin/balance.hpp>
#include <trialfit/spin/compression.hpp>
#include <trialfit/spin/inertia.hpp>
#include <trialfit/spin/spin.hpp>
#include <trialfit/stack/bounds.hpp>
#include <trialfit/stack/cautions.hpp>
#include <trialfit/trade/engine/flywheel.hpp>
#include <utility>

namespace trialfit::spin {

namespace {

Estimate over_range(const job::Span& span) {
    return {span.least, (span.least + span.greatest) / 2.0, span.greatest};
}

job::Complaints no_spin_section() {
    return {{.at = {},
             .fault = "the job has no 'spin' section",
             .mend = "add one: 'spin: {crank_inertia: FIGURE kg cm2, drag: FIGURE N m, starter: "
                     "{speed: FIGURE rpm}, bore: SIZE, compression: FIGURE, spark_from: FIGURE "
                     "rpm}'"}};
}

class Spinning {
public:
    Spinning(const job::Job& job, const stack::Model& model)
        : job_(job), spin_(*job.spin), turning_(what_turns(model)) {}

    std::variant<SpinAnswer, job::Complaints> run() {
        answer_.title = job_.title;
        answer_.file = job_.file;
        answer_.units = job_.units;
        answer_.inertia = turning_.inertia;
        if (spin_.bore && spin_.compression && job_.timing) {
            const auto found = compression(job_);
            if (!found) return no_engine(found.reason());
            if (found->to_firing && found->to_firing->degrees.greatest >= found->closes_deg.least)
                return fires_too_early();
            answer_.compression = *found;
        }
        start();
        running();
        told();
        return std::move(answer_);
    }

private:
    // Only of a job made in memory: the reader sees to the figures.
    [[nodiscard]] job::Complaints no_engine(const std::string& reason) const {
        return {{.at = spin_.at,
                 .fault = "nothing can be reckoned from 'spin': " + reason,
                 .mend = "mend 'stroke' and 'rod' of 'timing', or 'bore' and 'compression'"}};
    }

    [[nodiscard]] job::Complaints fires_too_early() const {
        return {{.at = (spin_.closes_at ? spin_.closes_at : job_.timing->fire_at)->value.at,
                 .fault = "it fires before the cylinder has closed, so that nothing is compressed",
                 .mend = "let 'closes_at' lie further before the top than 'fire_at' of 'timing'"}};
    }

    [[nodiscard]] std::optional<Estimate> whole_inertia() const {
        if (!answer_.inertia.whole) return std::nullopt;
        return answer_.inertia.known_kg_m2;
    }

    void start() {
        if (!spin_.starter) return;
        answer_.started = started(*spin_.starter, whole_inertia(), spin_.drag_nm);
        if (!answer_.compression || !answer_.compression->to_top.loss_j) return;
        Stakes stakes{.start = *answer_.started,
                      .inertia_kg_m2 = whole_inertia(),
                      .loss_to_top_j = *answer_.compression->to_top.loss_j,
                      .loss_to_firing_j = {},
                      .spark_from_rpm = {}};
        if (answer_.compression->to_firing)
            stakes.loss_to_firing_j = answer_.compression->to_firing->loss_j;
        if (spin_.spark_from_rpm) stakes.spark_from_rpm = over_range(*spin_.spark_from_rpm);
        answer_.carried = carried_over(stakes);
        answer_.spark = spark(stakes);
        answer_.needed = needed(stakes);
        if (answer_.spark) without_each(stakes);
    }

    void without_each(const Stakes& stakes) {
        for (PartInertia& part : answer_.inertia.parts) {
            const double rest = answer_.inertia.known_kg_m2.middle - part.inertia_kg_m2.middle;
            part.without = WithoutPart{.inertia_kg_m2 = rest,
                                       .at_firing_rpm = middle_speed_with(stakes, rest)};
        }
    }

    void running() {
        if (spin_.idle_rpm) at_speed(Running::At::idle, *spin_.idle_rpm);
        if (job_.seat && job_.seat->speed_rpm && job_.seat->speed_rpm->least > 0.0)
            at_speed(Running::At::full_speed, *job_.seat->speed_rpm);
        if (!spin_.idle_rpm || !answer_.compression || !whole_inertia()) return;
        const Estimate work = answer_.compression->to_top.work_j;
        const Estimate rpm = over_range(*spin_.idle_rpm);
        const Estimate inertia = *whole_inertia();
        const auto of = trade::coefficient_of_fluctuation;
        answer_.unevenness = Estimate{of(work.least, inertia.greatest, rpm.greatest),
                                      of(work.middle, inertia.middle, rpm.middle),
                                      of(work.greatest, inertia.least, rpm.least)};
    }

    void at_speed(Running::At at, const job::Span& span) {
        const Estimate rpm = over_range(span);
        Running out{.at = at, .rpm = rpm, .ring = turning_.widest, .rim_m_s = {}, .stored_j = {}};
        const auto each = [&rpm](const Estimate& one, const auto& of) {
            return Estimate{of(one.least, rpm.least), of(one.middle, rpm.middle),
                            of(one.greatest, rpm.greatest)};
        };
        if (!turning_.widest.empty()) out.rim_m_s = each(turning_.widest_mm, trade::rim_speed_m_s);
        if (const auto inertia = whole_inertia())
            out.stored_j = each(*inertia, trade::stored_energy_j);
        answer_.running.push_back(std::move(out));
    }

    void told() {
        const auto lacks = [this](bool is, Lacking what) {
            if (is) answer_.not_judged.emplace_back(what);
        };
        lacks(!spin_.crank_inertia_kg_m2, Lacking::crank_inertia);
        for (const stack::NotCounted& each : turning_.not_counted)
            answer_.not_judged.emplace_back(each);
        lacks(!spin_.drag_nm, Lacking::drag);
        lacks(!spin_.starter, Lacking::starter);
        lacks(!spin_.bore, Lacking::bore);
        lacks(!spin_.compression, Lacking::compression);
        lacks(!job_.timing, Lacking::stroke_and_rod);
        lacks(job_.timing && !job_.timing->fire_at, Lacking::fire_at);
        lacks(!spin_.spark_from_rpm, Lacking::spark_from);
        notes();
        answer_.not_assessed = {NotAssessed::leakage,         NotAssessed::combustion,
                                NotAssessed::burst_and_speed, NotAssessed::balance,
                                NotAssessed::crank_load,      NotAssessed::spark_itself};
        answer_.cautions = stack::cautions(job_);
    }

    void notes() {
        const auto note = [this](bool is, Remark remark) {
            if (is) answer_.notes.emplace_back(remark);
        };
        if (!turning_.shafts.empty())
            answer_.notes.emplace_back(ShaftIsCrank{.parts = turning_.shafts});
        if (answer_.started) {
            const StarterKind by = answer_.started->by;
            note(by == StarterKind::energy, Remark::energy_at_closing);
            note(by == StarterKind::torque, Remark::torque_until_closing);
            note(by == StarterKind::speed, Remark::speed_until_closing);
        }
        const bool compressed = answer_.compression.has_value();
        note(compressed && !spin_.closes_at, Remark::closes_at_bottom);
        note(compressed && !spin_.exponent, Remark::usual_exponent);
        note(compressed && !spin_.air_kpa, Remark::usual_air);
        note(compressed && !spin_.under_piston, Remark::nothing_under_piston);
        note(!answer_.inertia.parts.empty(), Remark::one_material_a_part);
    }

    const job::Job& job_;
    const job::Spin& spin_;
    WhatTurns turning_;
    SpinAnswer answer_;
};

// The checks that a weak spark may hang on, as they are judged.
void add_checks(const stack::CheckAnswer& check, SpinAnswer& answer) {
    answer.warnings = check.warnings;
    for (const stack::CheckResult& each : check.checks) {
        if (each.kind == stack::CheckKind::overlap) answer.over_poles.push_back(each);
        if (each.kind == stack::CheckKind::air_gap) answer.air_gaps.push_back(each);
    }
}

Verdict verdict_of(const SpinAnswer& answer) {
    Verdict worst = answer.not_judged.empty() ? Verdict::holds : Verdict::not_judged;
    for (const auto* each : {&answer.carried, &answer.spark})
        if (*each) worst = stack::worse(worst, (*each)->verdict);
    for (const auto* all : {&answer.over_poles, &answer.air_gaps})
        for (const stack::CheckResult& each : *all)
            worst = stack::worse(worst, each.verdict);
    return worst;
}

}  // namespace

std::variant<SpinAnswer, job::Complaints> spin(const job::Job& job, const stack::Options& options) {
    if (job::Complaints faults = job::validate(job); !faults.empty()) return faults;
    if (!job.spin) return no_spin_section();
    auto built = stack::model_for(job, options);
    if (auto* const complaints = std::get_if<job::Complaints>(&built))
        return std::move(*complaints);
    const auto& model = std::get<stack::Model>(built);
    auto outcome = Spinning(job, model).run();
    if (auto* const answer = std::get_if<SpinAnswer>(&outcome)) {
        add_checks(stack::check(model, options), *answer);
        answer->verdict = verdict_of(*answer);
    }
    return outcome;
}

}  // namespace trialfit::spin
