// SPDX-License-Identifier: MIT
#include <algorithm>
#include <trialfit/sheet/live/finding.hpp>
#include <trialfit/stack/bounds.hpp>
#include <trialfit/stack/change/carry_out.hpp>
#include <trialfit/stack/check/requirements.hpp>
#include <trialfit/stack/clearance/clearances.hpp>
#include <trialfit/stack/model/index.hpp>
#include <trialfit/stack/radial/radial.hpp>
#include <trialfit/stack/states.hpp>
#include <utility>
#include <variant>

namespace trialfit::sheet {

namespace {

using stack::Form;
using stack::Model;

// As many readings as a page has room for.
constexpr std::size_t kMostReadings = 12;

class Finding {
public:
    Finding(const LiveDone& done, const std::vector<LivePlace>& places,
            const stack::Options& options)
        : done_(done), places_(places), options_(options) {}

    // State by state.
    [[nodiscard]] std::vector<LiveFinding> all() const {
        std::vector<LiveFinding> found;
        for (const Model& state : stack::in_states(*done_.model))
            add_state(state, found);
        return found;
    }

    // Cold. A face that was cut is where it is now: `readings` are of the job before.
    [[nodiscard]] std::vector<LiveFinding> of(const std::vector<job::Reading>& readings) const {
        std::vector<LiveFinding> found;
        const Model& model = *done_.model;
        for (const job::Reading& each : readings) {
            LiveFinding& out = found.emplace_back();
            out.kind = LiveFinding::Kind::reading;
            out.name = each.name;
            out.blank.value = {figure(model, model.gap({.face = each.from}, {.face = each.to}))};
        }
        return found;
    }

private:
    void add_state(const Model& model, std::vector<LiveFinding>& to) const {
        for (const stack::Clearance& pair :
             stack::clearances(model, options_.judge, options_.inflate).pairs)
            to.push_back(clearance(model, pair));
        if (stack::asks_radial(model.job()))
            for (const stack::NestedRings& pair : stack::nested_anywhere(model))
                to.push_back(radial(model, pair));
        for (const auto* checks : {&model.job().checks, &model.automatic_checks()})
            for (const job::Check& check : *checks)
                to.push_back(check_of(model, check));
        for (const job::AirGap& check : model.job().air_gaps)
            add_air_gap(model, check, to);
    }

    [[nodiscard]] std::vector<double> by(const Model& model, const Form& form) const {
        const Form adjusted = model.ties().adjusted(form);
        std::vector<double> all;
        for (std::size_t f = 0; f < places_.size(); ++f)
            all.push_back(done_.columns[f] < 0
                              ? 0.0
                              : places_[f].sign * adjusted.sensitivities.coeff(done_.columns[f]));
        return all;
    }

    [[nodiscard]] LiveFigure figure(const Model& model, const Form& form) const {
        return {.at = stack::bounds(model, form, options_.inflate), .by = by(model, form)};
    }

    // With nothing moving it but what the form itself holds.
    [[nodiscard]] LiveFigure fixed(const Model& model, const Form& form) const {
        return {.at = {stack::fixed_bounds(model.ties(), model.columns(), form, options_.inflate)},
                .by = by(model, form)};
    }

    [[nodiscard]] std::vector<LiveFigure> fixed(const Model& model,
                                                const std::vector<Form>& forms) const {
        std::vector<LiveFigure> all;
        all.reserve(forms.size());
        for (const Form& form : forms)
            all.push_back(fixed(model, form));
        return all;
    }

    [[nodiscard]] LiveFinding clearance(const Model& model, const stack::Clearance& pair) const {
        LiveFinding out{.name = pair.inboard + " to " + pair.outboard, .state = model.state()};
        out.at_least = LiveLimit{.limit = pair.at_least, .more_than = pair.more_than};
        out.blank.value = {{.at = pair.gap, .by = by(model, stack::tilted_gap(model, pair))}};
        out.blank.may_miss = pair.may_miss;
        out.blank.not_judged = pair.not_judged_for.has_value() && !pair.may_miss;
        return out;
    }

    [[nodiscard]] LiveFinding radial(const Model& model, const stack::NestedRings& pair) const {
        const stack::RadialQuestion asked = stack::radial_question(model, pair.inner, pair.outer);
        LiveFinding out{.kind = LiveFinding::Kind::radial,
                        .name = asked.inner + " in " + asked.outer,
                        .state = model.state()};
        const double needed = stack::radial_needed(model.job(), pair);
        out.at_least = LiveLimit{.limit = needed, .more_than = needed <= 0.0};
        out.blank.value = fixed(model, asked.least);
        for (const Form& form : stack::lie_over_one_another(model, pair)) {
            out.blank.may_miss = out.blank.may_miss || model.unmeasured().open(form);
            out.blank.within.push_back(fixed(model, model.greatest_end(form)));
        }
        out.blank.not_judged =
            stack::radial_not_judged_for(model, pair.inner, pair.outer).has_value();
        return out;
    }

    [[nodiscard]] LiveFinding check_of(const Model& model, const job::Check& check) const {
        const stack::Question asked = stack::question(model, check);
        LiveFinding out{
            .kind = LiveFinding::Kind::check, .name = check.name, .state = model.state()};
        for (const stack::Question::Difference& each : asked.differences)
            out.blank.value.push_back(figure(model, each.stated));
        out.blank.not_judged = stack::answer(model, check, options_.judge, options_.inflate)
                                   .not_judged_for.has_value();
        if (out.blank.not_judged) return out;
        if (check.at_least) {
            out.at_least = limit(model, check, *check.at_least);
            out.blank.over = without_share(model, asked, out.at_least->share);
        }
        if (check.at_most) {
            out.at_most = limit(model, check, *check.at_most);
            out.blank.under = without_share(model, asked, out.at_most->share);
        }
        return out;
    }

    static LiveLimit limit(const Model& model, const job::Check& check, const job::Limit& given) {
        const stack::Threshold level = stack::threshold(model, check, given).value();
        return {.limit = level.length, .more_than = given.more_than, .share = level.share};
    }

    [[nodiscard]] std::vector<LiveFigure> without_share(const Model& model,
                                                        const stack::Question& asked,
                                                        double share) const {
        std::vector<LiveFigure> all;
        if (share == 0.0) return all;
        for (const stack::Question::Difference& each : asked.differences) {
            stack::FormBuilder over;
            over.add(each.stated, 1.0);
            over.add(*asked.length, -share);
            all.push_back(figure(model, std::move(over).build(each.stated.sensitivities.size())));
        }
        return all;
    }

    // Its least gap, and where that has a limit its greatest.
    void add_air_gap(const Model& model, const job::AirGap& check,
                     std::vector<LiveFinding>& to) const {
        const stack::RadialQuestion asked = stack::radial_question(model, check.one, check.other);
        LiveFinding out{
            .kind = LiveFinding::Kind::check, .name = check.name, .state = model.state()};
        out.blank.not_judged =
            stack::radial_not_judged_for(model, check.one, check.other).has_value();
        out.one_of_two = check.at_least && check.at_most;
        LiveFinding widest = out;
        out.blank.value = fixed(model, asked.least);
        if (check.at_least) out.at_least = LiveLimit{.limit = check.at_least->value};
        if (check.at_least || !check.at_most) to.push_back(std::move(out));
        if (!check.at_most) return;
        widest.widest = true;
        widest.blank.value = fixed(model, asked.greatest);
        widest.at_most = LiveLimit{.limit = check.at_most->value};
        to.push_back(std::move(widest));
    }

    const LiveDone& done_;
    const std::vector<LivePlace>& places_;
    const stack::Options& options_;
};

std::vector<job::Reading> taken_again(const job::Job& job) {
    std::vector<job::Reading> all;
    for (const job::Reading& each : job.readings) {
        const auto same = [&](const job::Reading& other) {
            return other.from == each.from && other.to == each.to;
        };
        if (std::ranges::none_of(all, same) && all.size() < kMostReadings) all.push_back(each);
    }
    return all;
}

}  // namespace

LiveWork::LiveWork(const Model& before, const stack::Options& options,
                   const std::vector<LivePlace>& places)
    : before_(before),
      options_(options),
      places_(places),
      base_(std::make_shared<job::Job>(before.job())),
      readings_(taken_again(before.job())) {}

std::optional<LiveDone> LiveWork::done(const std::vector<std::optional<LiveTyped>>& fields) const {
    stack::Changes changes;
    LiveDone out;
    out.columns.assign(places_.size(), -1);
    const auto filled = [](const auto& each) { return each.has_value(); };
    if (std::ranges::none_of(fields, filled)) {
        out.model.emplace(before_);
        return out;
    }
    for (std::size_t f = 0; f < places_.size(); ++f)
        if (fields[f]) add_work(places_[f], fields[f]->value, fields[f]->pieces, changes);
    out.job = std::make_unique<job::Job>(stack::carried_out(before_, changes));
    out.job->before = base_;
    auto after = stack::model_after(before_, *out.job);
    if (after.index() != 0) return std::nullopt;
    out.model.emplace(std::move(std::get<Model>(after)));
    for (std::size_t f = 0; f < places_.size(); ++f) {
        if (!fields[f]) continue;
        const std::optional<int> column = out.model->column_of(places_[f].size);
        if (!column) continue;
        if (out.model->ties().tied(*column)) return std::nullopt;
        out.columns[f] = *column;
    }
    return out;
}

LiveFound LiveWork::found(const LiveDone& done) const {
    const Finding finding(done, places_, options_);
    LiveFound out{.findings = finding.all(), .draw_up = {}};
    for (LiveFinding& each : finding.of(readings_))
        out.findings.push_back(std::move(each));
    if (const quantity::Size* const draw_up = done.model->known_draw_up()) out.draw_up = *draw_up;
    return out;
}

stack::Verdict LiveWork::apart(const LiveDone& done) const {
    return stack::check(*done.model, options_).verdict_apart;
}

}  // namespace trialfit::sheet
