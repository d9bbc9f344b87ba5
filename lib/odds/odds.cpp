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
#include <trialfit/stack/radial.hpp>
#include <trialfit/stack/requirements.hpp>
#include <trialfit/stack/states.hpp>

namespace trialfit::odds {

namespace {

using stack::Form;
using stack::Model;

constexpr std::size_t kMostDrivers = 12;
constexpr int kCurvePoints = 61;
// Upper limits of grips and overlaps that the chance of all together takes in.
constexpr std::size_t kMostUpperLimits = 4;

using Pair = std::pair<std::string, std::string>;

// Whether the odds of a finding on two features are asked for.
bool wanted(const Options& options, stack::Verdict verdict, const Pair& pair) {
    return (!options.doubtful_only || verdict == stack::Verdict::doubtful) &&
           (!options.only || *options.only == pair);
}

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
    const stack::Station low = stack::inboard_station(pair);
    const stack::Station high = stack::outboard_station(pair);
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

// A radial gap: each end of the shared length at least, and where asked at most, so wide. The
// eccentricities count in their worst directions, so the chance is that or better.
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
    double least = kInfinity;
    for (const Form& form : question.least) {
        const double nominal = stack::value(form, model.columns().nominal);
        if (nominal < least) {
            least = nominal;
            asked.deciding = asked.least.size();
        }
        asked.least.push_back({.form = form});
        if (at_least) asked.least.back().lower = relaxed(*at_least, more_than);
    }
    asked.shown = asked.least[asked.deciding].form;
    for (const Form& form : question.greatest)
        if (at_most) asked.least.push_back({.form = form, .upper = *at_most + stack::kRounding});
    asked.nominal_margin = least - at_least.value_or(-kInfinity);
    return asked;
}

job::FeatureRef ring_named(const job::Job& job, int part, const std::string& name) {
    const auto rings = static_cast<int>(job.parts[static_cast<std::size_t>(part)].rings.size());
    for (int r = 0; r < rings; ++r)
        if (job::ring_name(job, {part, r}) == name) return {part, r};
    return {part, 0};
}

// What is asked of radial gaps: of the pairs that are listed in the state that decides, of all in
// every state; and of the job's air gaps.
struct AskedRadial {
    std::vector<Asked> pairs;
    std::vector<Asked> checks;
    std::vector<Asked> all;
};

AskedRadial ask_radial(const std::vector<Model>& states, const Options& options) {
    AskedRadial asked;
    const job::Job& job = states.front().job();
    const std::vector<stack::RadialGap> found =
        stack::radial_gaps(states, options.stack.judge, options.stack.inflate);
    const auto ask = [&](const Model& model, const stack::RadialGap& pair) {
        return ask_radial(
            model,
            stack::radial_question(model, ring_named(job, pair.inner_part, pair.inner),
                                   ring_named(job, pair.outer_part, pair.outer)),
            pair.at_least, std::nullopt, pair.more_than);
    };
    for (const stack::RadialGap& pair :
         stack::listed(found, options.stack.all_pairs || options.only)) {
        if (!wanted(options, pair.verdict, {pair.inner, pair.outer})) continue;
        asked.pairs.push_back(ask(stack::in_state(states, pair.state), pair));
        asked.pairs.back().head.name = pair.inner + " in " + pair.outer;
        asked.pairs.back().head.automatic = true;
    }
    for (const stack::RadialGap& pair : found)
        for (const Model& model : states)
            if (wanted(options, pair.verdict, {pair.inner, pair.outer}))
                asked.all.push_back(ask(model, pair));
    const auto value = [](const std::optional<job::Limit>& limit) {
        return limit ? std::optional(limit->value) : std::nullopt;
    };
    for (const job::AirGap& check : job.air_gaps) {
        const stack::CheckResult result =
            stack::answer(states, check, options.stack.judge, options.stack.inflate);
        if (!wanted(options, result.verdict, {result.first, result.second})) continue;
        const auto of = [&](const Model& model) {
            return ask_radial(model, stack::radial_question(model, check.one, check.other),
                              value(check.at_least), value(check.at_most), false);
        };
        asked.checks.push_back(of(stack::in_state(states, result.state)));
        asked.checks.back().head.name = check.name;
        for (const Model& model : states)
            asked.all.push_back(of(model));
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
            chance_of(asked.least, spreads_, sampler_, options_.sampling, samples_);
        found.holds = chance.holds;
        found.fails = chance.fails;
        if (!asked.most.empty()) {
            const Probability over =
                chance_of(asked.most, spreads_, sampler_, options_.sampling, samples_).holds;
            found.holds = {.value = std::max(0.0, found.holds.value - over.value),
                           .lower = std::max(0.0, found.holds.lower - over.upper),
                           .upper = std::max(0.0, found.holds.upper - over.lower)};
            found.fails = 1.0 - found.holds.value;
        }
        found.exact = found.holds.lower == found.holds.upper;
        if (!options_.chances_only) describe(found, asked, model_, spreads_);
        return found;
    }

    // That a grip's or an overlap's upper limit `most` is passed takes all of its differences, so
    // that the chance of all together is, by inclusion and exclusion over these limits, a sum of
    // chances that demands are met together.
    Probability find_all(const std::vector<Asked>& all) {
        std::vector<Demand> demands;
        std::vector<const std::vector<Demand>*> over;
        for (const Asked& asked : all) {
            demands.insert(demands.end(), asked.least.begin(), asked.least.end());
            if (!asked.most.empty() && over.size() < kMostUpperLimits) over.push_back(&asked.most);
        }
        Probability together{.value = 0.0, .lower = 0.0, .upper = 0.0};
        for (std::size_t chosen = 0; chosen < (std::size_t{1} << over.size()); ++chosen) {
            std::vector<Demand> met = demands;
            bool adds = true;
            for (std::size_t k = 0; k < over.size(); ++k) {
                if ((chosen >> k & 1U) == 0) continue;
                met.insert(met.end(), over[k]->begin(), over[k]->end());
                adds = !adds;
            }
            const Probability p =
                chance_of(met, spreads_, sampler_, options_.sampling, samples_).holds;
            together.value += adds ? p.value : -p.value;
            together.lower += adds ? p.lower : -p.upper;
            together.upper += adds ? p.upper : -p.lower;
        }
        const auto kept = [](double p) { return std::clamp(p, 0.0, 1.0); };
        return {.value = kept(together.value),
                .lower = kept(together.lower),
                .upper = kept(together.upper)};
    }

    [[nodiscard]] std::uint64_t samples() const { return samples_; }

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
    std::uint64_t samples_ = 0;
};

}  // namespace

std::variant<OddsAnswer, job::Complaints> odds(const job::Job& job, const Options& options) {
    auto built = stack::model_for(job, options.stack);
    if (auto* complaints = std::get_if<job::Complaints>(&built)) return std::move(*complaints);
    const std::vector<Model> states = stack::in_states(std::move(std::get<Model>(built)));
    const stack::Search search =
        stack::clearances(states, options.stack.judge, options.stack.inflate);
    std::vector<Asked> clearances;
    for (const stack::Clearance& pair :
         stack::listed(search.pairs, options.stack.all_pairs || options.only)) {
        if (wanted(options, pair.verdict, {pair.inboard, pair.outboard}))
            clearances.push_back(ask_clearance(stack::in_state(states, pair.state), pair));
    }
    std::vector<Asked> all;
    for (const stack::Clearance& pair : search.pairs) {
        if (!wanted(options, pair.verdict, {pair.inboard, pair.outboard})) continue;
        for (const Model& model : states)
            all.push_back(ask_clearance(model, pair));
    }
    std::vector<Asked> checks;
    for (const job::Check& check : job.checks) {
        const stack::CheckResult found =
            stack::answer(states, check, options.stack.judge, options.stack.inflate);
        if (!wanted(options, found.verdict, {found.first, found.second})) continue;
        checks.push_back(ask_check(stack::in_state(states, found.state), check));
        for (const Model& model : states)
            all.push_back(ask_check(model, check));
    }

    AskedRadial radial = ask_radial(states, options);
    checks.insert(checks.end(), radial.checks.begin(), radial.checks.end());
    all.insert(all.end(), radial.all.begin(), radial.all.end());

    OddsAnswer answer{.file = job.file, .title = job.title, .units = job.units};
    answer.adjusted = !options.stack.readings.empty();
    answer.seed = options.sampling.seed;
    Finder finder(states.front(), options, all);
    for (const Asked& asked : checks)
        answer.checks.push_back(finder.find(asked));
    for (const Asked& asked : clearances)
        answer.clearances.push_back(finder.find(asked));
    for (const Asked& asked : radial.pairs)
        answer.radial.push_back(finder.find(asked));
    if (!radial.all.empty())
        answer.notes.emplace_back(
            "Eccentricities count in their worst directions: the chance of a radial gap is this or "
            "better.");
    answer.samples = finder.samples();
    if (options.chances_only) return answer;
    answer.all = finder.find_all(all);
    const auto upper_limits = static_cast<std::size_t>(std::count_if(
        all.begin(), all.end(), [](const Asked& asked) { return !asked.most.empty(); }));
    if (upper_limits > kMostUpperLimits) {
        answer.notes.push_back(fmt::format(
            "The chance of all together leaves out the upper limits of {} grips and overlaps.",
            upper_limits - kMostUpperLimits));
    }
    answer.all_exact = answer.all.lower == answer.all.upper;
    const auto contact = stack::first_contact(states.front(), search.pairs);
    const Model& fitted =
        stack::in_state(states, contact ? contact->state : states.front().state());
    FirstTouch touch = first_touch(fitted, search.pairs, options.sampling);
    answer.touches_first = std::move(touch.pairs);
    answer.nothing_touches = touch.nothing;
    answer.samples = std::max(finder.samples(), touch.samples);
    return answer;
}

}  // namespace trialfit::odds
