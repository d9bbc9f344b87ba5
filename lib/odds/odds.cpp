// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <limits>
#include <trialfit/odds/drivers.hpp>
#include <trialfit/odds/first_touch.hpp>
#include <trialfit/odds/infinity.hpp>
#include <trialfit/odds/odds.hpp>
#include <trialfit/odds/rows.hpp>
#include <trialfit/stack/bounds.hpp>
#include <trialfit/stack/clearances.hpp>
#include <trialfit/stack/requirements.hpp>
#include <trialfit/stack/states.hpp>

namespace trialfit::odds {

namespace {

using stack::Form;
using stack::Model;

constexpr std::size_t kMostDrivers = 12;
constexpr int kCurvePoints = 61;

// One demand on the sizes: a form between limits.
struct Demand {
    Form form;
    double lower = -kInfinity;
    double upper = kInfinity;
};

// What is asked, as demands that must all be met; `most` where a grip or an overlap has an upper
// limit, which is not one of these: the least of four is at most b where any of the four is.
struct Asked {
    CheckOdds head;
    std::vector<Demand> least;
    std::vector<Demand> most;
    std::size_t deciding = 0;
    Form shown;  // what the deciding demand is about, before a share of a length is taken off
    double nominal_margin = 0.0;
};

// A value on the limit itself is met; a clearance that must be more than nothing is not.
double relaxed(double limit, bool more_than) {
    return more_than ? limit + stack::kRounding : limit - stack::kRounding;
}

Asked ask_clearance(const Model& model, const stack::Clearance& pair) {
    Asked asked;
    asked.head = {.name = pair.inboard + " to " + pair.outboard,
                  .automatic = true,
                  .first = pair.inboard,
                  .second = pair.outboard};
    asked.head.at_least = pair.at_least;
    asked.head.state = model.state();
    asked.head.more_than = pair.more_than;
    const stack::Station low{.face = {pair.inboard_part, pair.inboard_end.face},
                             .beyond = pair.inboard_end.beyond};
    const stack::Station high{.face = {pair.outboard_part, pair.outboard_end.face},
                              .beyond = pair.outboard_end.beyond};
    asked.least.push_back(
        {.form = model.gap(low, high), .lower = relaxed(pair.at_least, pair.more_than)});
    asked.shown = asked.least.back().form;
    asked.nominal_margin = pair.gap.nominal - pair.at_least;
    return asked;
}

Form over(const stack::Question& question, const Form& form, const stack::Threshold& threshold) {
    stack::FormBuilder builder;
    builder.add(form, 1.0);
    if (threshold.share != 0.0) builder.add(*question.length, -threshold.share);
    return std::move(builder).build(form.sensitivities.size());
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
    asked.nominal_margin = result.nominal_margin;
    asked.head.state = model.state();
    const auto least =
        check.at_least ? stack::threshold(model, check, *check.at_least) : std::nullopt;
    const auto most = check.at_most ? stack::threshold(model, check, *check.at_most) : std::nullopt;
    asked.deciding = stack::deciding(model, question, least, stack::Judge::worst, 1.0);
    asked.shown = question.differences[asked.deciding].form;
    for (const stack::Question::Difference& difference : question.differences) {
        Demand demand{.form = over(question, difference.form, least.value_or(stack::Threshold{}))};
        if (least) demand.lower = relaxed(least->length, false);
        if (question.kind == stack::CheckKind::gap && most)
            demand.upper = most->length + stack::kRounding;
        asked.least.push_back(std::move(demand));
        if (question.kind == stack::CheckKind::gap || !most) continue;
        asked.most.push_back({.form = over(question, difference.form, *most),
                              .lower = most->length + stack::kRounding});
    }
    return asked;
}

struct Chance {
    Probability holds{.value = 1.0, .lower = 1.0, .upper = 1.0};
    double fails = 0.0;
};

// A sampled chance kept within what the exact single chances allow: as likely to fail as the
// likeliest single failure at least, as their sum at most (C. E. Bonferroni, 1936). In the tail,
// where few draws or none are seen, that is what is known.
Chance within_bounds(const Probability& sampled, const std::vector<double>& failing) {
    double least = 0.0;
    double most = 0.0;
    for (const double p : failing) {
        least = std::max(least, p);
        most = std::min(1.0, most + p);
    }
    const auto kept = [&](double holds) { return std::clamp(holds, 1.0 - most, 1.0 - least); };
    return {.holds = {.value = kept(sampled.value),
                      .lower = kept(sampled.lower),
                      .upper = kept(sampled.upper)},
            .fails = std::clamp(1.0 - sampled.value, least, most)};
}

// The chance that all demands are met: exact for one, sampled with exact controls for more.
Chance chance_of(const std::vector<Demand>& demands, const Spreads& spreads, const Sampler& sampler,
                 const Sampling& sampling, std::uint64_t& samples) {
    std::vector<LinearCheck> rows;
    std::vector<double> failing;
    for (const Demand& demand : demands) {
        const double fails = spreads.distribution(demand.form).outside(demand.lower, demand.upper);
        // What cannot fail need not be sampled.
        if (fails <= 0.0) continue;
        if (fails >= 1.0) return {.holds = {}, .fails = 1.0};
        rows.push_back(spreads.row(demand.form, demand.lower, demand.upper));
        failing.push_back(fails);
    }
    if (rows.empty()) return {};
    if (rows.size() == 1) {
        const double holds = 1.0 - failing[0];
        return {.holds = {.value = holds, .lower = holds, .upper = holds}, .fails = failing[0]};
    }
    const LinearSampled sampled = sample(sampler, rows, sampling);
    samples = std::max(samples, sampled.samples);
    return within_bounds(all_hold(sampled, failing), failing);
}

void describe(CheckOdds& found, const Asked& asked, const Model& model, const Spreads& spreads) {
    const Demand& demand = asked.least[asked.deciding];
    const SumDistribution sum = spreads.distribution(asked.shown);
    found.skewness = sum.skewness();
    if (sum.sd() > 0.0) {
        for (const double p : {0.00135, 0.01, 0.05, 0.25, 0.5, 0.75, 0.95, 0.99, 0.99865}) {
            found.quantiles.push_back({.p = p, .value = sum.quantile(p)});
        }
        const double from = sum.quantile(0.0005);
        found.curve = {.from = from, .step = (sum.quantile(0.9995) - from) / (kCurvePoints - 1)};
        for (int i = 0; i < kCurvePoints; ++i)
            found.curve.density.push_back(sum.density(from + i * found.curve.step));
    }
    const std::vector<Contributor> contributors = spreads.contributors(demand.form);
    const std::vector<int> sizes = spreads.sizes_of(demand.form);
    const std::vector<Driver> risks =
        drivers(contributors, demand.form.constant, demand.lower, demand.upper);
    for (std::size_t i = 0; i < risks.size(); ++i) {
        const std::string label = sizes[i] < 0
                                      ? "the sizes that the readings tie"
                                      : model.sizes()[static_cast<std::size_t>(sizes[i])].label;
        found.drivers.push_back({.size = label,
                                 .share_of_variance = risks[i].share_of_variance,
                                 .fails_if_halved = risks[i].outside_if_halved});
    }
    std::stable_sort(found.drivers.begin(), found.drivers.end(),
                     [](const RiskDriver& a, const RiskDriver& b) {
                         return a.share_of_variance > b.share_of_variance;
                     });
    if (found.drivers.size() > kMostDrivers) found.drivers.resize(kMostDrivers);
}

class Finder {
public:
    Finder(const Model& model, const Options& options, const std::vector<Asked>& all)
        : model_(model),
          options_(options),
          spreads_(model, forms_of(all)),
          sampler_(spreads_.population()) {}

    CheckOdds find(const Asked& asked) {
        CheckOdds found = asked.head;
        const SumDistribution shown = spreads_.distribution(asked.shown);
        found.mean = shown.mean();
        found.sd = shown.sd();
        const Chance chance =
            chance_of(asked.least, spreads_, sampler_, options_.sampling, samples);
        found.holds = chance.holds;
        found.fails = chance.fails;
        if (!asked.most.empty()) {
            const Probability over =
                chance_of(asked.most, spreads_, sampler_, options_.sampling, samples).holds;
            found.holds = {.value = std::max(0.0, found.holds.value - over.value),
                           .lower = std::max(0.0, found.holds.lower - over.upper),
                           .upper = std::max(0.0, found.holds.upper - over.lower)};
            found.fails = 1.0 - found.holds.value;
        }
        found.exact = found.holds.lower == found.holds.upper;
        if (!options_.chances_only) describe(found, asked, model_, spreads_);
        return found;
    }

    Chance find_all(const std::vector<Asked>& all) {
        std::vector<Demand> demands;
        for (const Asked& asked : all)
            demands.insert(demands.end(), asked.least.begin(), asked.least.end());
        return chance_of(demands, spreads_, sampler_, options_.sampling, samples);
    }

    std::uint64_t samples = 0;

private:
    static std::vector<Form> forms_of(const std::vector<Asked>& all) {
        std::vector<Form> forms;
        for (const Asked& asked : all) {
            for (const Demand& demand : asked.least)
                forms.push_back(demand.form);
            for (const Demand& demand : asked.most)
                forms.push_back(demand.form);
        }
        return forms;
    }

    const Model& model_;
    const Options& options_;
    Spreads spreads_;
    Sampler sampler_;
};

}  // namespace

std::variant<OddsAnswer, job::Complaints> odds(const job::Job& job, const Options& options) {
    auto built = stack::model_for(job, options.stack);
    if (auto* complaints = std::get_if<job::Complaints>(&built)) return std::move(*complaints);
    const std::vector<Model> states = stack::in_states(std::move(std::get<Model>(built)));
    const stack::Search search =
        stack::clearances(states, options.stack.judge, options.stack.inflate);
    const auto wanted = [&](stack::Verdict verdict) {
        return !options.doubtful_only || verdict == stack::Verdict::doubtful;
    };
    std::vector<Asked> clearances;
    for (const stack::Clearance& pair : stack::listed(search.pairs, options.stack.all_pairs)) {
        if (wanted(pair.verdict))
            clearances.push_back(ask_clearance(stack::in_state(states, pair.state), pair));
    }
    std::vector<Asked> all;
    for (const stack::Clearance& pair : search.pairs) {
        if (!wanted(pair.verdict)) continue;
        for (const Model& model : states)
            all.push_back(ask_clearance(model, pair));
    }
    std::vector<Asked> checks;
    for (const job::Check& check : job.checks) {
        const stack::CheckResult found =
            stack::answer(states, check, options.stack.judge, options.stack.inflate);
        if (!wanted(found.verdict)) continue;
        checks.push_back(ask_check(stack::in_state(states, found.state), check));
        for (const Model& model : states)
            all.push_back(ask_check(model, check));
    }

    OddsAnswer answer{.file = job.file, .title = job.title, .units = job.units};
    answer.adjusted = !options.stack.readings.empty();
    answer.seed = options.sampling.seed;
    Finder finder(states.front(), options, all);
    for (const Asked& asked : checks)
        answer.checks.push_back(finder.find(asked));
    for (const Asked& asked : clearances)
        answer.clearances.push_back(finder.find(asked));
    answer.samples = finder.samples;
    if (options.chances_only) return answer;
    answer.all = finder.find_all(all).holds;
    const bool upper_left_out =
        std::any_of(all.begin(), all.end(), [](const Asked& asked) { return !asked.most.empty(); });
    if (upper_left_out) {
        answer.notes.emplace_back(
            "The chance of all together leaves out the upper limits of grips and overlaps.");
    }
    answer.all_exact = answer.all.lower == answer.all.upper;
    const auto contact = stack::first_contact(states.front(), search.pairs);
    const Model& fitted =
        stack::in_state(states, contact ? contact->state : states.front().state());
    FirstTouch touch = first_touch(fitted, search.pairs, options.sampling);
    answer.touches_first = std::move(touch.pairs);
    answer.nothing_touches = touch.nothing;
    answer.samples = std::max(finder.samples, touch.samples);
    return answer;
}

void give_odds(stack::CheckAnswer& answer, const OddsAnswer& odds) {
    for (stack::CheckResult& check : answer.checks) {
        for (const CheckOdds& found : odds.checks) {
            if (found.name == check.name) {
                check.odds = found.holds.value;
                check.fails = found.fails;
            }
        }
    }
    for (stack::Clearance& pair : answer.clearances) {
        for (const CheckOdds& found : odds.clearances) {
            if (found.first == pair.inboard && found.second == pair.outboard) {
                pair.odds = found.holds.value;
                pair.fails = found.fails;
            }
        }
    }
}

void judge_by_odds(stack::CheckAnswer& answer, const OddsAnswer& odds, double level) {
    give_odds(answer, odds);
    answer.odds_level = level;
    answer.verdict = stack::Verdict::holds;
    const auto judge = [&](double chance, double nominal_margin) {
        if (chance >= level) return stack::Verdict::holds;
        return nominal_margin < -stack::kRounding ? stack::Verdict::fails
                                                  : stack::Verdict::doubtful;
    };
    for (stack::CheckResult& check : answer.checks) {
        if (check.odds) check.verdict = judge(*check.odds, check.nominal_margin);
        answer.verdict = stack::worse(answer.verdict, check.verdict);
    }
    for (stack::Clearance& pair : answer.clearances) {
        if (pair.odds) pair.verdict = judge(*pair.odds, pair.gap.nominal - pair.at_least);
        answer.verdict = stack::worse(answer.verdict, pair.verdict);
    }
}

}  // namespace trialfit::odds
