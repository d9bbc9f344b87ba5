// SPDX-License-Identifier: MIT
#pragma once

#include <cstdint>
#include <span>
#include <trialfit/numerics/probability.hpp>
#include <trialfit/numerics/random/sampler.hpp>

namespace trialfit::numerics {

/// Two-sided 95 % of the standard normal.
inline constexpr double kNinetyFive = 1.959963984540054;

/// A share of successes out of samples >= 1 with its interval (E. B. Wilson, "Probable inference,
/// the law of succession, and statistical inference", J. Amer. Statist. Assoc. 22, 1927); z in
/// standard deviations.
[[nodiscard]] Probability wilson(std::uint64_t successes, std::uint64_t samples,
                                 double z = kNinetyFive);

/// The probability that all linear checks hold, from their sampled joint failures and the exact
/// probability of each to fail. The number of failing checks, whose mean is known exactly, serves
/// as a control variate (R. Y. Rubinstein, Simulation and the Monte Carlo Method, 1981, section
/// 4.3); what is left to chance is only how often failures fall together. Wilson's interval where
/// too few failures were seen to tell the control's worth.
[[nodiscard]] Probability all_hold(const LinearSampled& sampled, std::span<const double> failing);

/// The mean of an indicator output with the last output, whose mean is known exactly, as a control.
[[nodiscard]] Probability controlled(const Sampled& sampled, std::size_t output, double last_mean);

/// The n of "about 1 in n": 1/p, to a whole number below 10 and two figures above; infinite for 0.
[[nodiscard]] double one_in(double probability);

}  // namespace trialfit::numerics
