// SPDX-License-Identifier: MIT
#include <algorithm>
#include <cmath>
#include <cstddef>
#include <optional>
#include <trialfit/stack/bounds.hpp>
#include <trialfit/stack/check/if_halved.hpp>

namespace trialfit::stack {

namespace {

// Up to so many tied sizes the ties are made anew for each; more are worked out by what one size
// changes in them (Ties::if_better), in time that does not grow with their square. Experience: a
// hundred take some ten milliseconds either way.
constexpr std::size_t kTiesMadeAnew = 100;

quantity::Size halved(const quantity::Size& size) {
    quantity::Size better = size;
    const double quarter = size.half_width() / 2.0;
    better.lower = size.middle() - quarter;
    better.upper = size.middle() + quarter;
    better.spread.scatter_sd = size.spread.scatter_sd / 2.0;
    return better;
}

Fixed narrower(const Fixed& now, double reach, double inflate) {
    Fixed after = now;
    after.worst = {.lo = now.worst.lo + reach / 2.0, .hi = now.worst.hi - reach / 2.0};
    const double half = (now.rss.hi - now.rss.lo) / 2.0;
    const double share = inflate * reach;
    const double left = std::sqrt(std::max(0.0, half * half - 0.75 * share * share));
    after.rss = {.lo = now.middle - left, .hi = now.middle + left};
    return after;
}

// A value for each of the sizes; nothing where the closures could then not be met.
using OfEach = std::vector<std::optional<Bounds>>;

// No closures: by the change of the size's own term alone.
OfEach untied(const Model& model, const Form& form, const std::vector<int>& sizes, double inflate) {
    const Bounds now = bounds(model, form, inflate);
    OfEach all;
    all.reserve(sizes.size());
    for (const int size : sizes) {
        const double reach =
            std::abs(form.sensitivities.coeff(size)) * model.columns().half_width[size];
        const Fixed stated = narrower(now, reach, inflate);
        all.emplace_back(now.moving
                             ? moving_between(stated, narrower(now.moving->least, reach, inflate),
                                              narrower(now.moving->greatest, reach, inflate))
                             : Bounds{stated});
    }
    return all;
}

std::vector<std::optional<Fixed>> by_parts(const Model& model, const Form& form,
                                           const std::vector<Ties::Better>& all, double inflate) {
    const bool spreads = model.ties().spreads(form, model.columns());
    std::vector<std::optional<Fixed>> found;
    found.reserve(all.size());
    for (const auto& each : model.ties().if_better(form, model.columns(), all)) {
        if (!each) {
            found.emplace_back(std::nullopt);
            continue;
        }
        const double half = inflate * each->half_width;
        Fixed then{.nominal = each->nominal, .middle = each->middle, .worst = each->worst};
        then.rss = {.lo = each->middle - half, .hi = each->middle + half};
        if (spreads) then.rss = within_worst(then.rss, then.worst);
        found.emplace_back(then);
    }
    return found;
}

OfEach many_tied(const Model& model, const Form& form, const std::vector<int>& sizes,
                 double inflate) {
    std::vector<Ties::Better> better;
    better.reserve(sizes.size());
    for (const int size : sizes) {
        const quantity::Size half = halved(model.sizes()[static_cast<std::size_t>(size)].size);
        better.push_back({.size = size, .half_width = half.half_width(), .sd = half.sd()});
    }
    const auto stated = by_parts(model, form, better, inflate);
    OfEach all(sizes.size());
    for (std::size_t i = 0; i < all.size(); ++i)
        if (stated[i]) all[i] = Bounds{*stated[i]};
    if (!model.moves(form)) return all;
    const auto least = by_parts(model, model.least_end(form), better, inflate);
    const auto greatest = by_parts(model, model.greatest_end(form), better, inflate);
    for (std::size_t i = 0; i < all.size(); ++i) {
        all[i].reset();
        if (stated[i] && least[i] && greatest[i])
            all[i] = moving_between(*stated[i], *least[i], *greatest[i]);
    }
    return all;
}

OfEach few_tied(const Model& model, const Form& form, const std::vector<int>& sizes,
                double inflate) {
    OfEach all;
    all.reserve(sizes.size());
    for (const int size : sizes) {
        const quantity::Size better = halved(model.sizes()[static_cast<std::size_t>(size)].size);
        SizeColumns columns = model.columns();
        columns.half_width[size] = better.half_width();
        columns.sd[size] = better.sd();
        columns.lower[size] = better.lower;
        columns.upper[size] = better.upper;
        const Ties ties(model.closures(), columns);
        all.emplace_back(ties.contradictions().empty()
                             ? std::optional(bounds(model, ties, columns, form, inflate))
                             : std::nullopt);
    }
    return all;
}

}  // namespace

std::vector<Bounds> if_halved(const Model& model, const Question& question, bool greatest,
                              const std::vector<int>& sizes, const Bounds& now, double inflate) {
    const std::size_t tied = model.ties().tied_sizes();
    const auto of_form = tied == 0 ? untied : (tied <= kTiesMadeAnew ? few_tied : many_tied);
    OfEach all(sizes.size());
    for (std::size_t d = 0; d < question.differences.size(); ++d) {
        OfEach here = of_form(model, question.differences[d].stated, sizes, inflate);
        for (std::size_t i = 0; i < all.size(); ++i) {
            if (d == 0)
                all[i] = here[i];
            else if (all[i] && here[i])
                all[i] =
                    greatest ? Bounds{greatest_of(*all[i], *here[i])} : least_of(*all[i], *here[i]);
        }
    }
    std::vector<Bounds> found;
    found.reserve(all.size());
    for (const std::optional<Bounds>& each : all)
        found.push_back(each.value_or(now));
    return found;
}

}  // namespace trialfit::stack
