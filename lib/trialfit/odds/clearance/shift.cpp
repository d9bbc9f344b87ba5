// SPDX-License-Identifier: MIT
#include <algorithm>
#include <cmath>
#include <limits>
#include <trialfit/odds/clearance/shift.hpp>

namespace trialfit::odds {

namespace {

// Where the chance reaches the level, on the way from a shift that does not to one that does.
double reaching(const numerics::SumDistribution& sum, double lower, double upper, double level,
                double without, double with) {
    constexpr int kHalvings = 60;
    for (int i = 0; i < kHalvings && without != with; ++i) {
        const double middle = without + (with - without) / 2.0;
        const bool enough = sum.between(lower - middle, upper - middle) >= level;
        (enough ? with : without) = middle;
    }
    return with;
}

}  // namespace

stack::Range shifts(const numerics::SumDistribution& sum, double lower, double upper,
                    double level) {
    const double infinity = std::numeric_limits<double>::infinity();
    const double least = std::isfinite(lower) ? lower - sum.quantile(1.0 - level) : -infinity;
    const double greatest = std::isfinite(upper) ? upper - sum.quantile(level) : infinity;
    if (!std::isfinite(lower) || !std::isfinite(upper) || sum.variance() == 0.0)
        return {.lo = least, .hi = greatest};
    const double centred = lower + (upper - lower) / 2.0 - sum.mean();
    if (sum.between(lower - centred, upper - centred) < level)
        return {.lo = infinity, .hi = -infinity};
    return {.lo = reaching(sum, lower, upper, level, std::min(least, centred), centred),
            .hi = reaching(sum, lower, upper, level, std::max(greatest, centred), centred)};
}

}  // namespace trialfit::odds
