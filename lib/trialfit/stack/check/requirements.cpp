// SPDX-License-Identifier: MIT
#include <algorithm>
#include <cstddef>
#include <limits>
#include <trialfit/quantity/units.hpp>
#include <trialfit/stack/bounds.hpp>
#include <trialfit/stack/check/left_open.hpp>
#include <trialfit/stack/check/requirements.hpp>
#include <trialfit/stack/metal.hpp>
#include <trialfit/stack/states.hpp>
#include <utility>

namespace trialfit::stack {

namespace {

// An end of what engages: a station, less the incomplete thread there.
struct End {
    Station station;
    const job::Given* incomplete = nullptr;
    int incomplete_size = -1;
    double growth = 1.0;
    std::string words;
};

struct Interval {
    End start;
    End end;
};

template <typename Feature>
const job::Part& part_of(const Model& model, job::FeatureRef<Feature> feature) {
    return model.job().parts.at(feature.part.at());
}

Interval interval_of_ring(const Model& model, job::RingRef ref) {
    const job::Ring& ring = job::at(model.job(), ref);
    const auto end = [&](const job::RingEnd& at) {
        return End{.station = {.face = {ref.part, at.face}, .beyond = at.beyond},
                   .words = job::name(model.job(), ref.part, at)};
    };
    return {.start = end(ring.inboard), .end = end(ring.outboard)};
}

Interval interval_of_thread(const Model& model, job::ThreadRef ref) {
    const job::Thread& thread = job::at(model.job(), ref);
    const auto end = [&](job::FaceId face, const job::Given& incomplete, int size,
                         const char* what) {
        const job::FaceRef at{ref.part, face};
        const bool whole = incomplete.size.nominal == 0.0 && size < 0;
        return End{.station = {.face = at},
                   .incomplete = &incomplete,
                   .incomplete_size = size,
                   .growth = model.growth(ref.part),
                   .words = job::name(model.job(), at) + (whole ? "" : what)};
    };
    Interval interval{
        .start = end(thread.from, thread.run_out, model.run_out_size(ref), " (less its run_out)"),
        .end = end(thread.to, thread.lead_in, model.lead_in_size(ref), " (less its lead_in)")};
    const Form length = model.gap(interval.start.station, interval.end.station);
    if (value(length, model.columns().nominal) < 0.0) std::swap(interval.start, interval.end);
    return interval;
}

void shorten(FormBuilder& builder, const End& end) {
    if (end.incomplete == nullptr) return;
    if (end.incomplete_size >= 0) {
        builder.add(end.incomplete_size, -end.growth);
    } else {
        builder.add(-end.growth * end.incomplete->size.nominal);
    }
}

Question::Difference at_both_ends(const Model& model, const Form& stated, std::string words) {
    return {.stated = stated,
            .least = model.least_end(stated),
            .greatest = model.greatest_end(stated),
            .words = std::move(words)};
}

Question::Difference difference_of(const Model& model, const End& start, const End& end) {
    FormBuilder builder;
    builder.add(model.gap(start.station, end.station), 1.0);
    shorten(builder, start);
    shorten(builder, end);
    return at_both_ends(model, std::move(builder).build(model.columns().nominal.size()),
                        end.words + " - " + start.words);
}

std::vector<Question::Difference> four(const Model& model, const Interval& a, const Interval& b) {
    return {difference_of(model, a.start, a.end), difference_of(model, a.start, b.end),
            difference_of(model, b.start, a.end), difference_of(model, b.start, b.end)};
}

struct Asker {
    const Model& model;

    Question operator()(const job::GapOf& of) const {
        return question_of_gap(model, of.inboard, of.outboard);
    }
    Question operator()(const job::EngagementOf& of) const {
        Question question{.kind = CheckKind::engagement,
                          .first = job::thread_name(model.job(), of.one),
                          .second = job::thread_name(model.job(), of.other)};
        question.differences =
            four(model, interval_of_thread(model, of.one), interval_of_thread(model, of.other));
        return question;
    }
    // A nut's whole turns begin where its thread does; what is counterbored is free of thread.
    Question operator()(const job::ClampOf& of) const {
        const Interval moving = interval_of_thread(model, of.screwed);
        const Interval onto = interval_of_thread(model, of.onto);
        const double outward = screwed_inboard(of, moving) ? 1.0 : -1.0;
        // A nut's leading end against where the turns end; a bolt's shank against the hole's mouth.
        const bool at_start = (outward > 0.0) == of.nut;
        const End& own = at_start ? moving.start : moving.end;
        const End& other = at_start ? onto.start : onto.end;
        FormBuilder free;
        free.add(model.gap(other.station, own.station), outward);
        shorten(free, of.nut ? other : own);
        Question question{.kind = CheckKind::clamp,
                          .first = job::thread_name(model.job(), of.screwed),
                          .second = job::thread_name(model.job(), of.onto)};
        question.differences.push_back(
            at_both_ends(model, std::move(free).build(model.columns().nominal.size()),
                         own.words + " - " + other.words));
        return question;
    }
    // A nut lies on the far side of its seat, a bolt's thread on the near side of its head.
    [[nodiscard]] bool screwed_inboard(const job::ClampOf& of, const Interval& thread) const {
        const std::vector<job::Seat>& seats = part_of(model, of.screwed).seats;
        const auto seat = std::ranges::find(seats, job::SeatKind::face_on_face, &job::Seat::kind);
        const Station home{.face = {of.screwed.part, seat->own}};
        const auto from_seat = [&](const End& end) {
            return value(model.gap(home, end.station), model.columns().nominal);
        };
        const bool outboard_of_seat = from_seat(thread.start) + from_seat(thread.end) > 0.0;
        return outboard_of_seat == of.nut;
    }
    Question operator()(const job::OverlapOf& of) const {
        const Interval whole = interval_of_ring(model, of.of);
        Question question{.kind = CheckKind::overlap,
                          .first = job::ring_name(model.job(), of.of),
                          .second = job::ring_name(model.job(), of.by)};
        question.differences = four(model, whole, interval_of_ring(model, of.by));
        question.length = question.differences.front().stated;
        return question;
    }
};

Form less(const Question& question, const Form& difference, const Threshold& threshold) {
    FormBuilder builder;
    builder.add(difference, 1.0);
    builder.add(-threshold.length);
    if (threshold.share != 0.0) builder.add(*question.length, -threshold.share);
    return std::move(builder).build(difference.sensitivities.size());
}

double nominal_length(const Model& model, const Question& question) {
    return value(model.ties().adjusted(*question.length), model.columns().nominal);
}

// What one limit adds to the answer: its length in the file's unit, its margins and its verdict.
struct Limited {
    std::optional<double> length;
    std::optional<double> share;
    double judged_margin = 0.0;
    double nominal_margin = 0.0;
    Verdict verdict = Verdict::not_judged;
};

Limited limited(const Model& model, const Question& asked, const job::Check& check,
                const job::Limit& limit, bool lower, Judge judge, double inflate) {
    const std::optional<Threshold> level = threshold(model, check, limit);
    if (!level) return {};
    Limited result;
    const Bounds over = margin_over(model, asked, *level, inflate);
    const double infinity = std::numeric_limits<double>::infinity();
    const Demand demand = lower
                              ? Demand{.least = 0.0, .most = infinity, .more_than = limit.more_than}
                              : Demand{.least = -infinity, .most = 0.0};
    result.verdict = verdict(over, demand, judge);
    result.judged_margin =
        lower ? judged(over.least(), judge).lo : -judged(over.greatest(), judge).hi;
    result.nominal_margin = lower ? over.least().nominal : -over.greatest().nominal;
    result.length = level->length;
    if (limit.in == job::LimitIn::share) {
        result.share = level->share;
        result.length.reset();
        if (!model.unmeasured().open(*asked.length))
            result.length = level->share * nominal_length(model, asked);
    }
    return result;
}

std::optional<NotJudgedFor> strength_unknown(const Model& model, const job::Check& check) {
    const auto* engagement = std::get_if<job::EngagementOf>(&check.of);
    if (engagement == nullptr) return std::nullopt;
    const auto needed = engagement_for_strength(model.job(), *engagement);
    const auto* const unknown = std::get_if<StrengthUnknown>(&needed);
    if (unknown == nullptr) return std::nullopt;
    return std::visit([](const auto& why) { return NotJudgedFor(why); }, *unknown);
}

}  // namespace

Question question(const Model& model, const job::Check& check) {
    return std::visit(Asker{model}, check.of);
}

Question question_of_gap(const Model& model, job::FaceRef inboard, job::FaceRef outboard) {
    Question question{.first = job::name(model.job(), inboard),
                      .second = job::name(model.job(), outboard)};
    question.differences.push_back(at_both_ends(model,
                                                model.gap({.face = inboard}, {.face = outboard}),
                                                question.second + " - " + question.first));
    return question;
}

std::optional<Threshold> threshold(const Model& model, const job::Check& check,
                                   const job::Limit& limit) {
    const auto* engagement = std::get_if<job::EngagementOf>(&check.of);
    const auto form_length = [&](double mm) {
        return Threshold{.length = limit.value *
                                   quantity::convert(mm, quantity::Unit::mm, model.job().units)};
    };
    const auto form = [&]() -> const trade::ThreadForm& {
        return part_of(model, engagement->one).threads.at(engagement->one.index.at()).form;
    };
    switch (limit.in) {
        case job::LimitIn::length:
            return Threshold{.length = limit.value};
        case job::LimitIn::share:
            return Threshold{.share = limit.value};
        case job::LimitIn::diameters:
            return form_length(form().d_mm);
        case job::LimitIn::pitches:
            return form_length(form().pitch_mm);
        case job::LimitIn::strength:
            break;
    }
    const auto outcome = engagement_for_strength(model.job(), *engagement);
    const auto* const needed = std::get_if<trade::EngagementNeeded>(&outcome);
    if (needed == nullptr) return std::nullopt;
    return Threshold{
        .length = quantity::convert(needed->needed_mm, quantity::Unit::mm, model.job().units)};
}

Bounds value_of(const Model& model, const Question& question, double inflate) {
    return margin_over(model, question, Threshold{}, inflate);
}

Bounds margin_over(const Model& model, const Question& question, const Threshold& threshold,
                   double inflate) {
    std::optional<Bounds> least;
    for (const Question::Difference& each : question.differences) {
        const Bounds margin = bounds(model, less(question, each.stated, threshold), inflate);
        least = least ? least_of(*least, margin) : margin;
    }
    return least.value();
}

std::size_t deciding(const Model& model, const Question& question,
                     const std::optional<Threshold>& at_least, Judge judge, double inflate) {
    std::size_t best = 0;
    double least = std::numeric_limits<double>::infinity();
    for (std::size_t i = 0; i < question.differences.size(); ++i) {
        const Form margin =
            less(question, question.differences[i].stated, at_least.value_or(Threshold{}));
        const double low = judged(bounds(model, margin, inflate).least(), judge).lo;
        if (low < least - kRounding) {
            least = low;
            best = i;
        }
    }
    return best;
}

CheckResult answer(const Model& model, const job::Check& check, Judge judge, double inflate) {
    const Question asked = question(model, check);
    CheckResult result;
    result.name = check.name;
    result.kind = asked.kind;
    result.first = asked.first;
    result.second = asked.second;
    result.automatic = asked.kind == CheckKind::clamp;
    result.value = value_of(model, asked, inflate);
    if (asked.length) result.share = result.value.nominal / nominal_length(model, asked);
    const double infinity = std::numeric_limits<double>::infinity();
    result.judged_margin = infinity;
    result.nominal_margin = infinity;
    const auto apply = [&](const Limited& limit) {
        result.verdict = worse(result.verdict, limit.verdict);
        result.judged_margin = std::min(result.judged_margin, limit.judged_margin);
        result.nominal_margin = std::min(result.nominal_margin, limit.nominal_margin);
    };
    if (check.at_least) {
        const Limited limit = limited(model, asked, check, *check.at_least, true, judge, inflate);
        apply(limit);
        result.at_least = limit.length;
        result.at_least_share = limit.share;
        result.at_least_written = check.at_least->written;
        result.more_than = check.at_least->more_than;
        if (limit.verdict == Verdict::not_judged)
            result.not_judged_for = strength_unknown(model, check);
    }
    if (check.at_most) {
        const Limited limit = limited(model, asked, check, *check.at_most, false, judge, inflate);
        apply(limit);
        result.at_most = limit.length;
        result.at_most_share = limit.share;
        result.at_most_written = check.at_most->written;
        if (limit.verdict == Verdict::not_judged)
            result.not_judged_for = strength_unknown(model, check);
    }
    if (result.value.open()) {
        result.verdict = Verdict::not_judged;
        result.not_judged_for = left_open_for(model, asked);
        result.share.reset();
        return result;
    }
    auto unknown = growth_not_known(model, unknown_growth_under(model, [&](const Model& of) {
                                        return value_of(of, question(of, check), inflate).middle;
                                    }));
    if (unknown) {
        result.verdict = Verdict::not_judged;
        result.not_judged_for = std::move(*unknown);
    }
    return result;
}

CheckResult answer(const std::vector<Model>& states, const job::Check& check, Judge judge,
                   double inflate) {
    CheckResult deciding;
    std::vector<InState> all;
    for (std::size_t s = 0; s < states.size(); ++s) {
        CheckResult here = answer(states[s], check, judge, inflate);
        here.state = states[s].state();
        all.push_back({.state = here.state, .value = here.value, .verdict = here.verdict});
        if (s == 0 || std::pair{deciding.verdict, -deciding.judged_margin} <
                          std::pair{here.verdict, -here.judged_margin})
            deciding = std::move(here);
    }
    if (!deciding.state.empty()) deciding.in_states = std::move(all);
    return deciding;
}

const Model& in_state(const std::vector<Model>& states, const std::string& state) {
    const auto found = std::ranges::find(states, state, &Model::state);
    return found == states.end() ? states.front() : *found;
}

}  // namespace trialfit::stack
