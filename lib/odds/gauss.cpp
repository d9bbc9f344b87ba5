// SPDX-License-Identifier: MIT
#include <cmath>
#include <numbers>
#include <trialfit/odds/gauss.hpp>

namespace trialfit::odds {

namespace {

// The roots of the Legendre polynomial by Newton's rule, its value by the three-term recurrence.
GaussLegendre worked_out() {
    constexpr int kOrder = GaussLegendre::kOrder;
    GaussLegendre rule;
    for (int i = 0; i < kOrder; ++i) {
        double x = std::cos(std::numbers::pi * (i + 0.75) / (kOrder + 0.5));
        double slope = 1.0;
        for (int step = 0; step < 8; ++step) {
            double p = 1.0;
            double before = 0.0;
            for (int n = 1; n <= kOrder; ++n) {
                const double next = ((2.0 * n - 1.0) * x * p - (n - 1.0) * before) / n;
                before = p;
                p = next;
            }
            slope = kOrder * (x * p - before) / (x * x - 1.0);
            x -= p / slope;
        }
        rule.at[static_cast<std::size_t>(i)] = x;
        rule.weight[static_cast<std::size_t>(i)] = 2.0 / ((1.0 - x * x) * slope * slope);
    }
    return rule;
}

}  // namespace

const GaussLegendre& gauss_legendre() {
    static const GaussLegendre rule = worked_out();
    return rule;
}

}  // namespace trialfit::odds
