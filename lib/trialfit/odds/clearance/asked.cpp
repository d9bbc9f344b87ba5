// SPDX-License-Identifier: MIT
#include <algorithm>
#include <cstddef>
#include <trialfit/odds/clearance/asked.hpp>
#include <trialfit/stack/bounds.hpp>
#include <trialfit/stack/check/requirements.hpp>
#include <trialfit/stack/clearance/clearances.hpp>
#include <trialfit/stack/radial/radial.hpp>
#include <trialfit/stack/states.hpp>
#include <utility>

namespace trialfit::odds {

namespace {

using stack::Form;
using stack::Model;

// Whether the odds of a finding are asked for.
bool wanted(const Options& options, stack::Verdict verdict, const stack::JudgedId& id) {
    return (!options.doubtful_only || verdict == stack::Verdict::doubtful) &&
           (!options.only || *options.only == id);
}

// What is asked in every state, with the one named to decide.
template <typename Ask>
Finding in_all(const std::vector<Model>& states, const std::string& deciding, const Ask& ask) {
    Finding finding;
    for (const Model& model : states) {
        if (model.state() == deciding) finding.deciding = finding.states.size();
        finding.states.push_back(ask(model));
    }
    return finding;
}

void append(const Finding& finding, std::vector<Asked>& to) {
    to.insert(to.end(), finding.states.begin(), finding.states.end());
}

// `form` with a stand-off s = max(0, y) by a key, y = per_excess * (height - room), put as y, or
// left out.
Form without_key(const Model& model, const Form& form, int size, bool linear) {
    const stack::KeyStandOff& key = *model.sizes()[static_cast<std::size_t>(size)].key;
    const double times = form.sensitivities.coeff(size);
    stack::FormBuilder builder;
    builder.add(form, 1.0);
    builder.add(size, -times);
    if (linear) {
        builder.add(key.height, times * key.per_excess);
        builder.add(key.room, -times * key.per_excess);
    }
    return std::move(builder).build(form.sensitivities.size());
}

// One demand with a key's stand-off: where that loses, also the demand of the rest without it.
void put_key_apart(const Model& model, int size, std::size_t which, std::vector<LimitedForm>& all) {
    const LimitedForm demand = all[which];
    const double times = demand.form.sensitivities.coeff(size);
    if (times == 0.0) return;
    LimitedForm rest = demand;
    rest.form = without_key(model, demand.form, size, false);
    const bool loses =
        times < 0.0 ? demand.lower > -numerics::kInfinity : demand.upper < numerics::kInfinity;
    if (!loses) {
        all[which] = rest;
        return;
    }
    all[which].form = without_key(model, demand.form, size, true);
    if (times < 0.0)
        all[which].upper = numerics::kInfinity;
    else
        all[which].lower = -numerics::kInfinity;
    all.push_back(std::move(rest));
}

// A key that may or may not be too high. rest + c max(0, y) stays above a limit with c < 0, or
// below one with c > 0, just where both rest and rest + c y do: two linear demands in place of one.
// What a stand-off gains on the other side is not counted on. A key that readings tie stays as it
// is.
void put_keys_apart(const Model& model, Asked& asked) {
    for (int size = 0; size < static_cast<int>(model.sizes().size()); ++size) {
        if (!model.sizes()[static_cast<std::size_t>(size)].key || model.ties().tied(size)) continue;
        const std::size_t before = asked.least.size();
        for (std::size_t d = 0; d < before; ++d)
            put_key_apart(model, size, d, asked.least);
        for (LimitedForm& demand : asked.most)
            if (demand.form.sensitivities.coeff(size) != 0.0)
                demand.form = without_key(model, demand.form, size, false);
        if (asked.shown.sensitivities.coeff(size) != 0.0)
            asked.shown = without_key(model, asked.shown, size, false);
    }
}

// What nothing measured fixes has no chance and no distribution.
void leave_open(const Model& model, Asked& asked) {
    const auto open = [&](const LimitedForm& demand) {
        return model.unmeasured().open(demand.form);
    };
    if (std::none_of(asked.least.begin(), asked.least.end(), open) &&
        std::none_of(asked.most.begin(), asked.most.end(), open))
        return;
    asked.head.open = true;
    asked.least.clear();
    asked.most.clear();
    asked.leaning.reset();
    asked.shown = {.constant = 0.0,
                   .sensitivities = Eigen::SparseVector<double>(
                       static_cast<Eigen::Index>(model.sizes().size()))};
}

Asked ask_clearance(const Model& model, const stack::Clearance& pair) {
    Asked asked;
    asked.head = {.id = stack::id_of(pair),
                  .name = pair.inboard + " to " + pair.outboard,
                  .automatic = true,
                  .first = pair.inboard,
                  .second = pair.outboard};
    asked.head.at_least = pair.at_least;
    asked.head.state = model.state();
    asked.head.more_than = pair.more_than;
    asked.shown = stack::least_gap(model, pair);
    asked.least.push_back(
        {.form = asked.shown, .lower = pair.at_least, .more_than = pair.more_than});
    if (pair.several_directions) {
        Leaning leaning{.width = stack::gap_at_axis(model, pair),
                        .ends = {stack::tilt_of(model, pair)},
                        .lower = pair.at_least};
        leaning.roams.sensitivities.resize(leaning.width.sensitivities.size());
        if (directions_matter(model, leaning.ends)) asked.leaning = std::move(leaning);
    }
    asked.nominal_margin = pair.gap.nominal - pair.at_least;
    asked.head.not_judged_for = stack::clearance_not_judged_for(model, pair);
    put_keys_apart(model, asked);
    leave_open(model, asked);
    return asked;
}

Form over(const stack::Question& question, const Form& form, const stack::Threshold& threshold) {
    stack::FormBuilder builder;
    builder.add(form, 1.0);
    if (threshold.share != 0.0) builder.add(*question.length, -threshold.share);
    return std::move(builder).build(form.sensitivities.size());
}

// Whether the upper of a gap's two limits has less to spare in the worst case.
bool less_room_above(const stack::CheckResult& gap) {
    const double below = gap.value.least().worst.lo - *gap.at_least;
    return *gap.at_most - gap.value.greatest().worst.hi < below;
}

Asked ask_check(const Model& model, const job::Check& check) {
    const stack::Question question = stack::question(model, check);
    const stack::CheckResult result = stack::answer(model, check, stack::Judge::worst, 1.0);
    Asked asked;
    asked.head = {.name = check.name,
                  .kind = question.kind,
                  .first = question.first,
                  .second = question.second,
                  .at_least = result.at_least,
                  .at_most = result.at_most};
    asked.head.automatic = result.automatic;
    asked.head.more_than = result.more_than;
    asked.nominal_margin = result.nominal_margin;
    asked.head.state = model.state();
    const auto least =
        check.at_least ? stack::threshold(model, check, *check.at_least) : std::nullopt;
    const auto most = check.at_most ? stack::threshold(model, check, *check.at_most) : std::nullopt;
    asked.deciding = stack::deciding(model, question, least, stack::Judge::worst, 1.0);
    const stack::Question::Difference& decides = question.differences[asked.deciding];
    asked.shown = least || !most ? decides.least : decides.greatest;
    asked.head.not_judged_for = result.not_judged_for;
    for (const stack::Question::Difference& difference : question.differences) {
        LimitedForm demand{
            .form = over(question, difference.least, least.value_or(stack::Threshold{}))};
        if (least) {
            demand.lower = least->length;
            demand.more_than = check.at_least->more_than;
        }
        const bool gap = question.kind == stack::CheckKind::gap;
        const bool moves = model.moves(difference.stated);
        if (gap && most && !moves) demand.upper = most->length;
        // What moves is held against its upper limit at the other end of the movement.
        const bool at_greatest = gap && most && moves;
        if (least || !at_greatest) asked.least.push_back(std::move(demand));
        if (at_greatest)
            asked.least.push_back({.form = difference.greatest, .upper = most->length});
        if (at_greatest && least && less_room_above(result)) asked.deciding = 1;
        if (gap || !most) continue;
        asked.most.push_back({.form = over(question, difference.greatest, *most),
                              .lower = most->length,
                              .more_than = true});
    }
    put_keys_apart(model, asked);
    leave_open(model, asked);
    return asked;
}

// A radial gap: each end of the shared length at least, and where asked at most, so wide.
Asked ask_radial(const Model& model, const stack::RadialQuestion& question,
                 std::optional<double> at_least, std::optional<double> at_most, bool more_than) {
    Asked asked;
    asked.head.first = question.inner;
    asked.head.second = question.outer;
    asked.head.kind = stack::CheckKind::air_gap;
    asked.head.state = model.state();
    asked.head.at_least = at_least;
    asked.head.at_most = at_most;
    asked.head.more_than = more_than;
    double least = numerics::kInfinity;
    for (const Form& form : question.least) {
        const double nominal = stack::value(form, model.columns().nominal);
        if (nominal < least) {
            least = nominal;
            asked.deciding = asked.least.size();
        }
        asked.least.push_back({.form = form,
                               .lower = at_least.value_or(-numerics::kInfinity),
                               .more_than = more_than});
    }
    asked.shown = asked.least[asked.deciding].form;
    for (const Form& form : question.greatest)
        if (at_most) asked.least.push_back({.form = form, .upper = *at_most});
    if (directions_matter(model, question.ends)) {
        asked.leaning = {.width = question.width, .roams = question.roams, .ends = question.ends};
        if (at_least) asked.leaning->lower = *at_least;
        if (at_most) asked.leaning->upper = *at_most;
    }
    asked.nominal_margin = least - at_least.value_or(-numerics::kInfinity);
    leave_open(model, asked);
    return asked;
}

void ask_radial(const std::vector<Model>& states, const Options& options, AllAsked& asked) {
    const job::Job& job = states.front().job();
    const std::vector<stack::RadialGap> found =
        stack::radial_gaps(states, options.stack.judge, options.stack.inflate);
    const auto ask = [&](const Model& model, const stack::RadialGap& pair) {
        Asked one =
            ask_radial(model, stack::radial_question(model, pair.inner_ring, pair.outer_ring),
                       pair.at_least, std::nullopt, pair.more_than);
        one.head.id = stack::id_of(pair);
        one.head.name = pair.inner + " in " + pair.outer;
        one.head.automatic = true;
        one.head.not_judged_for =
            stack::radial_not_judged_for(model, pair.inner_ring, pair.outer_ring);
        return one;
    };
    for (const stack::RadialGap& pair :
         stack::listed(found, options.stack.all_pairs || options.only)) {
        if (!wanted(options, pair.verdict, stack::id_of(pair))) continue;
        asked.radial.push_back(
            in_all(states, pair.state, [&](const Model& model) { return ask(model, pair); }));
    }
    for (const stack::RadialGap& pair : found)
        for (const Model& model : states)
            if (wanted(options, pair.verdict, stack::id_of(pair)))
                asked.together.push_back(ask(model, pair));
    const auto value = [](const std::optional<job::Limit>& limit) {
        return limit ? std::optional(limit->value) : std::nullopt;
    };
    for (std::size_t c = 0; c < job.air_gaps.size(); ++c) {
        const job::AirGap& check = job.air_gaps[c];
        const stack::CheckResult result =
            stack::answer(states, check, options.stack.judge, options.stack.inflate);
        if (!wanted(options, result.verdict, stack::AirGapId{c})) continue;
        asked.checks.push_back(in_all(states, result.state, [&](const Model& model) {
            Asked one = ask_radial(model, stack::radial_question(model, check.one, check.other),
                                   value(check.at_least), value(check.at_most), false);
            one.head.id = stack::AirGapId{c};
            one.head.name = check.name;
            one.head.not_judged_for = stack::radial_not_judged_for(model, check.one, check.other);
            return one;
        }));
        append(asked.checks.back(), asked.together);
    }
}

}  // namespace

AllAsked ask(const std::vector<Model>& states, const std::vector<stack::Clearance>& pairs,
             const Options& options) {
    AllAsked asked;
    for (const stack::Clearance& pair :
         stack::listed(pairs, options.stack.all_pairs || options.only)) {
        if (!wanted(options, pair.verdict, stack::id_of(pair))) continue;
        asked.clearances.push_back(in_all(
            states, pair.state, [&](const Model& model) { return ask_clearance(model, pair); }));
    }
    for (const stack::Clearance& pair : pairs) {
        if (!wanted(options, pair.verdict, stack::id_of(pair))) continue;
        for (const Model& model : states)
            asked.together.push_back(ask_clearance(model, pair));
    }
    const auto ask = [&](const job::Check& check, stack::JudgedId id) {
        const stack::CheckResult found =
            stack::answer(states, check, options.stack.judge, options.stack.inflate);
        if (!wanted(options, found.verdict, id)) return;
        asked.checks.push_back(in_all(states, found.state, [&](const Model& model) {
            Asked one = ask_check(model, check);
            one.head.id = id;
            return one;
        }));
        append(asked.checks.back(), asked.together);
    };
    const std::vector<job::Check>& checks = states.front().job().checks;
    for (std::size_t c = 0; c < checks.size(); ++c)
        ask(checks[c], stack::CheckId{c});
    ask_radial(states, options, asked);
    const std::vector<job::Check>& automatic = states.front().automatic_checks();
    for (std::size_t c = 0; c < automatic.size(); ++c)
        ask(automatic[c], stack::ClampId{c});
    return asked;
}

}  // namespace trialfit::odds
