// SPDX-License-Identifier: MIT
#include <algorithm>
#include <trialfit/odds/clearance/demand.hpp>
#include <trialfit/stack/bounds.hpp>

namespace trialfit::odds {

namespace {

// A sum that spreads by less than this, in the file's unit, has no spread but rounding.
constexpr double kNoSpread = 1e-3 * stack::kRounding;

bool ties_a_size(const stack::Model& model, const stack::Form& form) {
    for (Eigen::SparseVector<double>::InnerIterator it(form.sensitivities); it; ++it)
        if (model.ties().tied(static_cast<int>(it.index()))) return true;
    return false;
}

// Whether everything in `range` meets the demand, as check judges it.
bool meets(const stack::Range& range, const LimitedForm& demand) {
    const bool low = demand.more_than ? range.lo > demand.lower + stack::kRounding
                                      : range.lo >= demand.lower - stack::kRounding;
    return low && range.hi <= demand.upper + stack::kRounding;
}

bool misses(const stack::Range& range, const LimitedForm& demand) {
    const bool low = demand.more_than ? range.hi <= demand.lower + stack::kRounding
                                      : range.hi < demand.lower - stack::kRounding;
    return low || range.lo > demand.upper + stack::kRounding;
}

}  // namespace

double failing(const Spreads& spreads, const LimitedForm& demand) {
    const numerics::SumDistribution sum = spreads.distribution(demand.form);
    if (sum.sd() <= kNoSpread) return meets({sum.mean(), sum.mean()}, demand) ? 0.0 : 1.0;
    if (ties_a_size(spreads.model(), demand.form)) {
        const stack::Range worst = stack::bounds(spreads.model(), demand.form, 1.0).worst;
        if (meets(worst, demand)) return 0.0;
        if (misses(worst, demand)) return 1.0;
    }
    return sum.outside(demand.lower, demand.upper);
}

bool never_fails(const Spreads& spreads, const LimitedForm& demand) {
    constexpr double kFarEnough = 42.0;  // exp(-42) < 1e-18
    double mean = demand.form.constant;
    double proxy = 0.0;
    for (const auto& [sensitivity, law] : spreads.contributors(demand.form)) {
        mean += sensitivity * moments(law).mean;
        const double half = (law.to - law.from) / 2.0;
        proxy += sensitivity * sensitivity * half * half;
        if (law.kind == numerics::DistributionKind::normal ||
            law.kind == numerics::DistributionKind::gauge)
            proxy += sensitivity * sensitivity * law.sd * law.sd;
    }
    const double room = std::min(mean - demand.lower, demand.upper - mean);
    return room > stack::kRounding && room * room > 2.0 * kFarEnough * proxy;
}

bool implied(const Spreads& spreads, const LimitedForm& demand, const LimitedForm& surer) {
    constexpr double kNever = 1e-15;
    const auto never = [&](double limit, double other, double sign) {
        stack::FormBuilder builder;
        builder.add(demand.form, sign);
        builder.add(surer.form, -sign);
        builder.add(sign * (other - limit));
        const numerics::SumDistribution over =
            spreads.distribution(std::move(builder).build(demand.form.sensitivities.size()));
        if (over.sd() <= kNoSpread) return over.mean() >= -kNoSpread;
        return over.cdf(0.0) < kNever;
    };
    if (demand.lower != -numerics::kInfinity &&
        (surer.lower == -numerics::kInfinity || !never(demand.lower, surer.lower, 1.0)))
        return false;
    return demand.upper == numerics::kInfinity ||
           (surer.upper != numerics::kInfinity && never(demand.upper, surer.upper, -1.0));
}

double quantile(const Spreads& spreads, const stack::Form& form,
                const numerics::SumDistribution& sum, double p) {
    const double value = sum.quantile(p);
    if (!ties_a_size(spreads.model(), form)) return value;
    const stack::Range worst = stack::bounds(spreads.model(), form, 1.0).worst;
    return std::clamp(value, worst.lo, std::max(worst.lo, worst.hi));
}

}  // namespace trialfit::odds
