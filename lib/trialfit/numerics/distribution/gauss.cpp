// SPDX-License-Identifier: MIT
#include <cmath>
#include <numbers>
#include <trialfit/numerics/distribution/gauss.hpp>

namespace trialfit::numerics {

namespace {

// The roots of the Legendre polynomial by Newton's rule, its value by the three-term recurrence; in
// long doubles, so that the weights near the ends are good to the last bit of a double.
GaussLegendre worked_out_nodes() {
    constexpr int kOrder = GaussLegendre::kOrder;
    GaussLegendre rule;
    for (int i = 0; i < kOrder; ++i) {
        long double x = std::cos(std::numbers::pi * (i + 0.75) / (kOrder + 0.5));
        long double slope = 1.0L;
        for (int step = 0; step < 8; ++step) {
            long double p = 1.0L;
            long double before = 0.0L;
            for (int n = 1; n <= kOrder; ++n) {
                const long double next =
                    ((2.0L * n - 1.0L) * x * p - (n - 1.0L) * before) / static_cast<long double>(n);
                before = p;
                p = next;
            }
            slope = kOrder * (x * p - before) / (x * x - 1.0L);
            x -= p / slope;
        }
        rule.at[static_cast<std::size_t>(i)] = static_cast<double>(x);
        rule.weight[static_cast<std::size_t>(i)] =
            static_cast<double>(2.0L / ((1.0L - x * x) * slope * slope));
    }
    return rule;
}

}  // namespace

const GaussLegendre& gauss_legendre() {
    static const GaussLegendre rule = worked_out_nodes();
    return rule;
}

}  // namespace trialfit::numerics
