// SPDX-License-Identifier: MIT
#include <algorithm>
#include <cmath>
#include <cstddef>
#include <trialfit/numerics/random/estimate.hpp>
#include <trialfit/odds/clearance/first_touch.hpp>
#include <trialfit/odds/direction/leaning.hpp>
#include <trialfit/odds/sampling/rows.hpp>
#include <trialfit/stack/clearance/clearances.hpp>

namespace trialfit::odds {

namespace {

using stack::Clearance;
using stack::Form;

// A pair this unlikely to touch is left out of the sampling.
constexpr double kNever = 1e-12;
// More pairs that may touch first than this are not drawn.
constexpr std::size_t kMostDrawn = 200;

struct Candidate {
    const Clearance* pair = nullptr;
    Form form;  // at the axis
    Leaning leaning;
    double constant = 0.0;
    std::vector<std::pair<std::size_t, double>> terms;  // of what is drawn
};

std::vector<Candidate> candidates(const stack::Model& model, const std::vector<Clearance>& pairs) {
    std::vector<Candidate> all;
    for (const Clearance& pair : pairs) {
        if (pair.gap.open()) continue;
        const Form form = stack::least_gap(model, pair);
        // Where even ten standard deviations leave a gap, the exact tail is far below kNever.
        const double sd =
            std::sqrt(std::max(0.0, model.ties().covariance(form, form, model.columns())));
        if (pair.gap.middle > 10.0 * sd && pair.gap.worst.lo > 0.0) continue;
        // One that fouls at the middle is no rare one, and its distribution need not be known.
        if (pair.gap.middle > 0.0 &&
            numerics::SumDistribution(contributors(model, form), form.constant).cdf(0.0) < kNever)
            continue;
        Candidate found{.pair = &pair, .form = stack::gap_at_axis(model, pair)};
        found.leaning.ends = {stack::tilt_of(model, pair)};
        found.leaning.roams.sensitivities.resize(form.sensitivities.size());
        all.push_back(std::move(found));
    }
    return all;
}

// The deepest of so many that drawing all would take too long; at the middle of the limits.
std::size_t keep_deepest(std::vector<Candidate>& all) {
    if (all.size() <= kMostDrawn) return 0;
    const std::size_t left_out = all.size() - kMostDrawn;
    std::stable_sort(all.begin(), all.end(), [](const Candidate& a, const Candidate& b) {
        return a.pair->gap.middle < b.pair->gap.middle;
    });
    all.resize(kMostDrawn);
    return left_out;
}

}  // namespace

FirstTouch first_touch(const stack::Model& model, const std::vector<Clearance>& pairs,
                       const numerics::Sampling& sampling) {
    std::vector<Candidate> all = candidates(model, pairs);
    if (all.empty()) return {};
    const std::size_t left_out = keep_deepest(all);
    std::vector<Form> forms;
    forms.reserve(all.size());
    std::vector<Leaning> leanings;
    std::vector<stack::Vector> vectors;
    for (const Candidate& each : all) {
        forms.push_back(each.form);
        leanings.push_back(each.leaning);
        const auto own = all_vectors(each.leaning.ends);
        vectors.insert(vectors.end(), own.begin(), own.end());
    }
    const Spreads spreads(model, forms, vectors);
    const Taken taken(spreads, leanings);
    for (Candidate& each : all) {
        const numerics::LinearCheck row = spreads.row(each.form, 0.0, 0.0);
        each.constant = row.constant;
        for (std::size_t i = 0; i < row.coefficients.size(); ++i)
            if (row.coefficients[i] != 0.0) each.terms.emplace_back(i, row.coefficients[i]);
    }
    const numerics::Sampler sampler(spreads.population());
    const std::size_t variables = sampler.variables();
    const numerics::Evaluator evaluate = [&](std::span<const double> values,
                                             std::span<double> outputs) {
        const std::size_t block = values.size() / std::max<std::size_t>(1, variables);
        std::vector<double> lost(all.size() * block);
        taken.work_out(values, lost);
        for (std::size_t s = 0; s < block; ++s) {
            double least = 0.0;
            std::size_t which = all.size();
            for (std::size_t k = 0; k < all.size(); ++k) {
                double gap = all[k].constant - lost[k * block + s];
                for (const auto& [variable, coefficient] : all[k].terms)
                    gap += coefficient * values[variable * block + s];
                if (gap < least) {
                    least = gap;
                    which = k;
                }
                outputs[k * block + s] = 0.0;
            }
            outputs[all.size() * block + s] = which == all.size() ? 1.0 : 0.0;
            if (which < all.size()) outputs[which * block + s] = 1.0;
        }
    };
    FirstTouch touch{.left_out = left_out};
    if (variables == 0) {
        const auto first =
            std::min_element(all.begin(), all.end(), [](const Candidate& a, const Candidate& b) {
                return a.pair->gap.nominal < b.pair->gap.nominal;
            });
        touch.nothing = 0.0;
        touch.pairs.push_back(
            {.inboard = first->pair->inboard,
             .outboard = first->pair->outboard,
             .part =
                 model.job().parts[static_cast<std::size_t>(first->pair->outboard_of.part)].name,
             .chance = {.value = 1.0, .lower = 1.0, .upper = 1.0}});
        return touch;
    }
    const numerics::Sampled sampled = sample(sampler, all.size() + 1, evaluate, sampling);
    touch.samples = sampled.samples;
    touch.nothing = sampled.mean.back();
    for (std::size_t k = 0; k < all.size(); ++k) {
        const auto seen = static_cast<std::uint64_t>(
            std::llround(sampled.mean[k] * static_cast<double>(sampled.samples)));
        if (seen == 0) continue;
        touch.pairs.push_back(
            {.inboard = all[k].pair->inboard,
             .outboard = all[k].pair->outboard,
             .part =
                 model.job().parts[static_cast<std::size_t>(all[k].pair->outboard_of.part)].name,
             .chance = numerics::wilson(seen, sampled.samples)});
    }
    std::stable_sort(touch.pairs.begin(), touch.pairs.end(),
                     [](const TouchesFirst& a, const TouchesFirst& b) {
                         return a.chance.value > b.chance.value;
                     });
    return touch;
}

}  // namespace trialfit::odds
