// SPDX-License-Identifier: MIT
#pragma once

#include <trialfit/numerics/random/sampler.hpp>
#include <trialfit/odds/answers.hpp>
#include <trialfit/odds/direction/leaning.hpp>
#include <vector>

namespace trialfit::odds {

/// The chance that a leaning gap fails, and the gap's distribution. What is taken is sampled; given
/// that, the chance over the width's sizes is exact, so a sample is not a hit or a miss but a
/// probability, and rare failures by the width need not be met to be counted.
struct Leant {
    numerics::Probability holds{.value = 1.0, .lower = 1.0, .upper = 1.0};
    double fails = 0.0;
    std::uint64_t samples = 0;  ///< 0 where it is certain either way
    double mean = 0.0;
    double sd = 0.0;
    double skewness = 0.0;
};

/// `at_worst`: the exact chance to fail, or a bound on it, if the vectors all lay in their worst
/// directions, which is at least the chance asked; so is the exact chance without any vector at
/// most.
[[nodiscard]] Leant leant(const stack::Model& model, const Leaning& leaning, double at_worst,
                          const numerics::Sampling& sampling);

/// Quantiles, curve and drivers for `found`, whose chance to fail stands in it already: from fewer
/// draws than that, the same for every size that is halved.
void describe(CheckOdds& found, const stack::Model& model, const Leaning& leaning,
              std::uint64_t seed);

}  // namespace trialfit::odds
