// SPDX-License-Identifier: MIT
#include <trialfit/stack/bounds.hpp>

namespace trialfit::stack {

namespace {

bool over(double x, const Demand& demand) {
    return demand.more_than ? x > demand.least + kRounding : x >= demand.least - kRounding;
}

bool under(double x, const Demand& demand) {
    return x <= demand.most + kRounding;
}

}  // namespace

Bounds bounds(const Ties& ties, const SizeColumns& sizes, const Form& form, double inflate) {
    const Form adjusted = ties.adjusted(form);
    Bounds all;
    all.nominal = value(adjusted, sizes.nominal);
    all.middle = value(adjusted, sizes.middle);
    all.worst = ties.extremes(form, sizes);
    const double half = inflate * adjusted.sensitivities.cwiseProduct(sizes.half_width).norm();
    all.rss = {.lo = all.middle - half, .hi = all.middle + half};
    return all;
}

Bounds bounds(const Model& model, const Form& form, double inflate) {
    return bounds(model.ties(), model.columns(), form, inflate);
}

Verdict verdict(const Bounds& value, const Demand& demand, Judge judge) {
    const Range& range = judged(value, judge);
    if (over(range.lo, demand) && under(range.hi, demand)) return Verdict::holds;
    const bool nominal_passes = over(value.nominal, demand) && under(value.nominal, demand);
    const bool some_pass = over(range.hi, demand) && under(range.lo, demand);
    return nominal_passes && some_pass ? Verdict::doubtful : Verdict::fails;
}

}  // namespace trialfit::stack
