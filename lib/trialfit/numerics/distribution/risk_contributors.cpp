// SPDX-License-Identifier: MIT
#include <trialfit/numerics/distribution/risk_contributors.hpp>

namespace trialfit::numerics {

Distribution with_half_the_spread(const Distribution& law) {
    const double middle = law.from + (law.to - law.from) / 2.0;
    const auto nearer = [middle](double x) { return middle + (x - middle) / 2.0; };
    Distribution half = law;
    half.from = nearer(law.from);
    half.to = nearer(law.to);
    half.mode = law.kind == DistributionKind::triangular ? nearer(law.mode) : law.mode;
    half.sd = law.sd / 2.0;
    return half;
}

std::vector<RiskContributor> risk_contributors(std::span<const Contributor> contributors,
                                               double constant, double lower, double upper) {
    const SumDistribution as_is(contributors, constant);
    std::vector<Contributor> changed(contributors.begin(), contributors.end());
    std::vector<RiskContributor> out;
    for (std::size_t i = 0; i < changed.size(); ++i) {
        const auto [sensitivity, law] = contributors[i];
        const double variance = sensitivity * sensitivity * moments(law).variance;
        changed[i].distribution = with_half_the_spread(law);
        out.push_back(
            {.share_of_variance = as_is.variance() > 0.0 ? variance / as_is.variance() : 0.0,
             .outside_if_halved = SumDistribution(changed, constant).outside(lower, upper)});
        changed[i].distribution = law;
    }
    return out;
}

}  // namespace trialfit::numerics
