// SPDX-License-Identifier: MIT
#include <algorithm>
#include <cmath>
#include <limits>
#include <trialfit/stack/bounds.hpp>

namespace trialfit::stack {

namespace {

bool over(double x, const Demand& demand) {
    return demand.more_than ? x > demand.least + kRounding : x >= demand.least - kRounding;
}

bool under(double x, const Demand& demand) {
    return x <= demand.most + kRounding;
}

Range least_range(const Range& a, const Range& b) {
    return {.lo = std::min(a.lo, b.lo), .hi = std::min(a.hi, b.hi)};
}

Fixed negated(const Fixed& a) {
    return {.nominal = -a.nominal,
            .middle = -a.middle,
            .worst = {.lo = -a.worst.hi, .hi = -a.worst.lo},
            .rss = {.lo = -a.rss.hi, .hi = -a.rss.lo}};
}

}  // namespace

Fixed left_open() {
    constexpr double kAnywhere = std::numeric_limits<double>::infinity();
    const Range anywhere{.lo = -kAnywhere, .hi = kAnywhere};
    return {.nominal = kAnywhere, .middle = kAnywhere, .worst = anywhere, .rss = anywhere};
}

Fixed least_of(const Fixed& a, const Fixed& b) {
    if (a.open() || b.open()) return left_open();
    return {.nominal = std::min(a.nominal, b.nominal),
            .middle = std::min(a.middle, b.middle),
            .worst = least_range(a.worst, b.worst),
            .rss = least_range(a.rss, b.rss)};
}

Fixed greatest_of(const Fixed& a, const Fixed& b) {
    if (a.open() || b.open()) return left_open();
    return negated(least_of(negated(a), negated(b)));
}

Bounds least_of(const Bounds& a, const Bounds& b) {
    const Fixed stated = least_of(static_cast<const Fixed&>(a), static_cast<const Fixed&>(b));
    if (!a.moving && !b.moving) return {stated};
    return moving_between(stated, least_of(a.least(), b.least()),
                          least_of(a.greatest(), b.greatest()));
}

Fixed fixed_bounds(const Ties& ties, const SizeColumns& sizes, const Form& form, double inflate) {
    for (Eigen::SparseVector<double>::InnerIterator it(form.sensitivities); it; ++it)
        if (std::isinf(sizes.half_width[it.index()]) || !std::isfinite(it.value()))
            return left_open();
    const Form adjusted = ties.adjusted(form);
    Fixed all;
    all.nominal = value(adjusted, sizes.nominal);
    all.middle = value(adjusted, sizes.middle);
    all.worst = ties.extremes(form, sizes);
    const double half = inflate * adjusted.sensitivities.cwiseProduct(sizes.half_width).norm();
    all.rss = {.lo = all.middle - half, .hi = all.middle + half};
    if (ties.spreads(form, sizes)) all.rss = within_worst(all.rss, all.worst);
    return all;
}

Range within_worst(const Range& rss, const Range& worst) {
    return {.lo = std::clamp(rss.lo, worst.lo, worst.hi),
            .hi = std::clamp(rss.hi, worst.lo, worst.hi)};
}

Bounds moving_between(const Fixed& stated, const Fixed& least, const Fixed& greatest) {
    Bounds all{stated};
    all.worst = {.lo = least.worst.lo, .hi = greatest.worst.hi};
    all.rss = {.lo = least.rss.lo, .hi = greatest.rss.hi};
    all.moving = {.least = least, .greatest = greatest};
    return all;
}

Bounds bounds(const Model& model, const Form& form, double inflate) {
    return bounds(model, model.ties(), model.columns(), form, inflate);
}

Bounds bounds(const Model& model, const Ties& ties, const SizeColumns& sizes, const Form& form,
              double inflate) {
    const Fixed stated = fixed_bounds(ties, sizes, form, inflate);
    if (!model.moves(form)) return {stated};
    return moving_between(stated, fixed_bounds(ties, sizes, model.least_end(form), inflate),
                          fixed_bounds(ties, sizes, model.greatest_end(form), inflate));
}

Verdict verdict(const Bounds& value, const Demand& demand, Judge judge) {
    if (value.open()) return Verdict::not_judged;
    const Fixed& least = value.least();
    const Fixed& greatest = value.greatest();
    if (over(judged(least, judge).lo, demand) && under(judged(greatest, judge).hi, demand))
        return Verdict::holds;
    const bool nominal_passes = over(least.nominal, demand) && under(greatest.nominal, demand);
    const bool some_pass =
        over(judged(least, judge).hi, demand) && under(judged(greatest, judge).lo, demand);
    return nominal_passes && some_pass ? Verdict::doubtful : Verdict::fails;
}

}  // namespace trialfit::stack
