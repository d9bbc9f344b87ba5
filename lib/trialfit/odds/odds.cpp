// SPDX-License-Identifier: MIT
#include <algorithm>
#include <cmath>
#include <cstddef>
#include <trialfit/job/validity/warnings.hpp>
#include <trialfit/numerics/distribution/risk_contributors.hpp>
#include <trialfit/odds/clearance/asked.hpp>
#include <trialfit/odds/clearance/first_touch.hpp>
#include <trialfit/odds/direction/leant.hpp>
#include <trialfit/odds/odds.hpp>
#include <trialfit/odds/sampling/rows.hpp>
#include <trialfit/odds/together/together.hpp>
#include <trialfit/stack/check/requirements.hpp>
#include <trialfit/stack/clearance/clearances.hpp>
#include <trialfit/stack/states.hpp>

namespace trialfit::odds {

namespace {

using stack::Form;
using stack::Model;

constexpr std::size_t kMostDrivers = 12;
constexpr int kCurvePoints = 61;
constexpr std::uint64_t kDrawsWhereCertain = 100'000;
// Upper limits of engagements and overlaps that the chance of all together takes in.
constexpr std::size_t kMostUpperLimits = 4;
// Of more findings than this only the chances, means and spreads are worked out.
constexpr std::size_t kMostDescribed = 30;
// Multiplications of all sampling together, some seconds: half for what is asked, half for what
// touches first.
constexpr double kMostWork = 5e9;

void describe(CheckOdds& found, const Asked& asked, const Model& model, const Spreads& spreads) {
    const LimitedForm& demand = asked.least[asked.deciding];
    const numerics::SumDistribution sum = spreads.distribution(asked.shown);
    found.skewness = sum.skewness();
    if (sum.sd() > 0.0) {
        for (const double p : {0.00135, 0.01, 0.05, 0.25, 0.5, 0.75, 0.95, 0.99, 0.99865}) {
            found.quantiles.push_back({.p = p, .value = quantile(spreads, asked.shown, sum, p)});
        }
        const double from = sum.quantile(0.0005);
        found.curve = {.from = from, .step = (sum.quantile(0.9995) - from) / (kCurvePoints - 1)};
        for (int i = 0; i < kCurvePoints; ++i)
            found.curve.density.push_back(sum.density(from + i * found.curve.step));
    }
    const std::vector<numerics::Contributor> contributors = spreads.contributors(demand.form);
    const std::vector<int> sizes = spreads.sizes_of(demand.form);
    const std::vector<numerics::RiskContributor> risks =
        numerics::risk_contributors(contributors, demand.form.constant, demand.lower, demand.upper);
    for (std::size_t i = 0; i < risks.size(); ++i) {
        const std::string label =
            sizes[i] < 0 ? std::string() : model.sizes()[static_cast<std::size_t>(sizes[i])].label;
        found.drivers.push_back({.size = label,
                                 .share_of_variance = risks[i].share_of_variance,
                                 .fails_if_halved = risks[i].outside_if_halved});
    }
}

void sort_drivers(CheckOdds& found) {
    std::stable_sort(found.drivers.begin(), found.drivers.end(),
                     [](const RiskDriver& a, const RiskDriver& b) {
                         return a.share_of_variance > b.share_of_variance;
                     });
    if (found.drivers.size() > kMostDrivers) found.drivers.resize(kMostDrivers);
}

// Whether something has odds that are not next to certain.
bool any_open(const OddsAnswer& answer) {
    constexpr double kNext = 1e-6;
    const auto open = [](const CheckOdds& each) {
        return !each.not_judged_for && each.fails > kNext && each.holds.value > kNext;
    };
    return std::any_of(answer.checks.begin(), answer.checks.end(), open) ||
           std::any_of(answer.clearances.begin(), answer.clearances.end(), open) ||
           std::any_of(answer.radial.begin(), answer.radial.end(), open);
}

class Finder {
public:
    Finder(const Model& model, const Options& options, const std::vector<Asked>& all)
        : model_(model),
          options_(options),
          spreads_(model, forms_of(all), vectors_of(all)),
          sampler_(spreads_.population()),
          sampling_(options.sampling) {
        const auto draws = [](const Asked& each) { return each.leaning || each.least.size() > 2; };
        const auto number = std::count_if(all.begin(), all.end(), draws) + 1;
        sampling_.most_work = kMostWork / 2.0 / static_cast<double>(number);
    }

    // Figures of the state that decides; the chance is that of all states together.
    CheckOdds find(const Finding& finding) {
        CheckOdds found = find(finding.in_deciding());
        for (const Asked& each : finding.states)
            if (!found.not_judged_for) found.not_judged_for = each.head.not_judged_for;
        if (finding.states.size() == 1 || found.not_judged_for) return found;
        const Chance chance = find_all(finding.states);
        found.holds = chance.holds;
        found.fails = chance.fails;
        found.exact = found.holds.lower == found.holds.upper;
        return found;
    }

    // That an engagement's or an overlap's upper limit `most` is passed takes all of its
    // differences, so that the chance of all together is, by inclusion and exclusion over these
    // limits, a sum of chances that demands are met together.
    Chance find_all(const std::vector<Asked>& all) {
        std::vector<LimitedForm> demands;
        std::vector<LeaningDemand> leaning;
        std::vector<const std::vector<LimitedForm>*> over;
        for (const Asked& asked : all) {
            if (asked.head.not_judged_for) continue;
            if (asked.leaning) {
                leaning.push_back({.leaning = *asked.leaning, .at_worst = asked.least});
            } else {
                demands.insert(demands.end(), asked.least.begin(), asked.least.end());
            }
            if (!asked.most.empty() && over.size() < kMostUpperLimits) over.push_back(&asked.most);
        }
        if (over.empty()) return of(demands, leaning);
        numerics::Probability together{.value = 0.0, .lower = 0.0, .upper = 0.0};
        for (std::size_t chosen = 0; chosen < (std::size_t{1} << over.size()); ++chosen) {
            std::vector<LimitedForm> met = demands;
            bool adds = true;
            for (std::size_t k = 0; k < over.size(); ++k) {
                if ((chosen >> k & 1U) == 0) continue;
                met.insert(met.end(), over[k]->begin(), over[k]->end());
                adds = !adds;
            }
            const numerics::Probability p = of(met, leaning).holds;
            together.value += adds ? p.value : -p.value;
            together.lower += adds ? p.lower : -p.upper;
            together.upper += adds ? p.upper : -p.lower;
        }
        const auto kept = [](double p) { return std::clamp(p, 0.0, 1.0); };
        return {.holds = {.value = kept(together.value),
                          .lower = kept(together.lower),
                          .upper = kept(together.upper)},
                .fails = 1.0 - kept(together.value)};
    }

    [[nodiscard]] std::uint64_t samples() const { return samples_; }
    [[nodiscard]] std::size_t counted_as_normal() const { return spreads_.counted_as_normal(); }
    [[nodiscard]] bool described_all() const { return described_ <= kMostDescribed; }

private:
    [[nodiscard]] bool describes() {
        return !options_.chances_only && ++described_ <= kMostDescribed;
    }

    CheckOdds find(const Asked& asked) {
        CheckOdds found = asked.head;
        if (found.open) return found;
        if (asked.leaning && find_leant(asked, found)) return found;
        const numerics::SumDistribution shown = spreads_.distribution(asked.shown);
        found.mean = shown.mean();
        found.sd = shown.sd();
        const Chance chance = of(asked.least, {});
        found.holds = chance.holds;
        found.fails = chance.fails;
        if (!asked.most.empty()) {
            const numerics::Probability over = of(asked.most, {}).holds;
            found.holds = {.value = std::max(0.0, found.holds.value - over.value),
                           .lower = std::max(0.0, found.holds.lower - over.upper),
                           .upper = std::max(0.0, found.holds.upper - over.lower)};
            found.fails = 1.0 - found.holds.value;
        }
        found.exact = found.holds.lower == found.holds.upper;
        if (describes()) {
            describe(found, asked, model_, spreads_);
            sort_drivers(found);
        }
        return found;
    }

    Chance of(const std::vector<LimitedForm>& demands, const std::vector<LeaningDemand>& leaning) {
        Chance chance = chance_of(demands, leaning, spreads_, sampler_, sampling_);
        samples_ = std::max(samples_, chance.samples);
        return chance;
    }

    // Nothing found where it cannot fail whatever the directions: that much is exact.
    bool find_leant(const Asked& asked, CheckOdds& found) {
        double at_worst = 0.0;
        for (const LimitedForm& demand : asked.least)
            at_worst += failing(spreads_, demand);
        if (at_worst <= 0.0 && options_.chances_only) return false;
        // Where it is certain either way, only its distribution is asked after.
        numerics::Sampling sampling = sampling_;
        if (at_worst <= 0.0) sampling.samples = std::min(sampling.samples, kDrawsWhereCertain);
        const Leant chance = leant(model_, *asked.leaning, std::min(1.0, at_worst), sampling);
        samples_ = std::max(samples_, chance.samples);
        found.holds = chance.holds;
        found.fails = chance.fails;
        found.mean = chance.mean;
        found.sd = chance.sd;
        found.skewness = chance.skewness;
        found.exact = found.holds.lower == found.holds.upper;
        if (!describes()) return true;
        describe(found, model_, *asked.leaning, options_.sampling.seed);
        sort_drivers(found);
        return true;
    }

    static std::vector<stack::Vector> vectors_of(const std::vector<Asked>& all) {
        std::vector<stack::Vector> vectors;
        for (const Asked& asked : all) {
            if (!asked.leaning) continue;
            const auto own = all_vectors(asked.leaning->ends);
            vectors.insert(vectors.end(), own.begin(), own.end());
        }
        return vectors;
    }

    static std::vector<Form> forms_of(const std::vector<Asked>& all) {
        std::vector<Form> forms;
        for (const Asked& asked : all) {
            for (const LimitedForm& demand : asked.least)
                forms.push_back(demand.form);
            for (const LimitedForm& demand : asked.most)
                forms.push_back(demand.form);
            if (!asked.leaning) continue;
            forms.push_back(asked.leaning->width);
            forms.push_back(asked.leaning->roams);
        }
        return forms;
    }

    const Model& model_;
    const Options& options_;
    Spreads spreads_;
    numerics::Sampler sampler_;
    numerics::Sampling sampling_;
    std::uint64_t samples_ = 0;
    std::size_t described_ = 0;
};

}  // namespace

std::variant<OddsAnswer, job::Complaints> odds(const job::Job& job, const Options& options) {
    auto built = stack::model_for(job, options.stack);
    if (auto* complaints = std::get_if<job::Complaints>(&built)) return std::move(*complaints);
    return odds(std::get<Model>(built), options);
}

OddsAnswer odds(const Model& model, const Options& options) {
    const job::Job& job = model.job();
    const std::vector<Model> states = stack::in_states(model);
    const stack::Search search =
        stack::clearances(states, options.stack.judge, options.stack.inflate);
    const AllAsked asked = ask(states, search.pairs, options);

    OddsAnswer answer{.file = job.file, .title = job.title, .units = job.units};
    answer.warnings = job::warnings(job);
    answer.nothing_asked = asked.together.empty();
    answer.adjusted = !options.stack.readings.empty();
    answer.seed = options.sampling.seed;
    Finder finder(states.front(), options, asked.together);
    for (const Finding& each : asked.checks)
        answer.checks.push_back(finder.find(each));
    for (const Finding& each : asked.clearances)
        answer.clearances.push_back(finder.find(each));
    for (const Finding& each : asked.radial)
        answer.radial.push_back(finder.find(each));
    for (const auto* list : {&answer.checks, &answer.clearances, &answer.radial})
        for (const CheckOdds& each : *list) {
            if (each.not_judged_for) {
                answer.not_judged.push_back({.check = each.name, .why = *each.not_judged_for});
            } else {
                ++answer.judged;
            }
        }
    const auto leans = [](const Asked& each) { return each.leaning.has_value(); };
    if (std::any_of(asked.together.begin(), asked.together.end(), leans))
        answer.notes.emplace_back(RandomDirections{});
    if (const std::size_t sizes = finder.counted_as_normal(); sizes > 0 && any_open(answer))
        answer.notes.emplace_back(CountedAsNormal{.sizes = sizes});
    answer.samples = finder.samples();
    if (options.chances_only) return answer;
    if (!finder.described_all())
        answer.notes.emplace_back(DescribedFirst{.findings = kMostDescribed});
    const Chance all = finder.find_all(asked.together);
    answer.all = all.holds;
    answer.all_fails = all.fails;
    const auto upper_limits = static_cast<std::size_t>(
        std::count_if(asked.together.begin(), asked.together.end(),
                      [](const Asked& each) { return !each.most.empty(); }));
    if (upper_limits > kMostUpperLimits)
        answer.notes.emplace_back(UpperLimitsLeftOut{.limits = upper_limits - kMostUpperLimits});
    answer.all_exact = answer.all.lower == answer.all.upper;
    const auto contact = stack::first_contact(states.front(), search.pairs);
    const Model& fitted =
        stack::in_state(states, contact ? contact->state : states.front().state());
    numerics::Sampling sampling = options.sampling;
    sampling.most_work = kMostWork / 2.0;
    FirstTouch touch = first_touch(fitted, search.pairs, sampling);
    if (touch.left_out > 0)
        answer.notes.emplace_back(
            ContactsLeftOut{.pairs = static_cast<std::size_t>(touch.left_out)});
    answer.touches_first = std::move(touch.pairs);
    answer.nothing_touches = touch.nothing;
    answer.samples = std::max(finder.samples(), touch.samples);
    return answer;
}

}  // namespace trialfit::odds
