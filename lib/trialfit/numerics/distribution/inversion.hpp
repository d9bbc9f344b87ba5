// SPDX-License-Identifier: MIT
#pragma once

#include <trialfit/numerics/distribution/term.hpp>
#include <vector>

namespace trialfit::numerics {

/// A sum of bounded parts, each measured from its lower end, and one normal of mean 0.
struct SumTerms {
    std::vector<Term> parts;
    double sigma = 0.0;
    /// Mean and standard deviation of the whole sum, if only nearly: where the search starts.
    double mean = 0.0;
    double sd = 0.0;
};

/// What to take of the sum: its density at a point, or the probability of lying below it.
enum class SumQuantity { pdf, cdf };

/// The density or the distribution function of a sum of at least two parts at `reach`, meant for
/// `reach` up to somewhat above the mean (mirror the parts for the other tail). Relative error some
/// 1e-13 as far down as doubles go.
///
/// The Bromwich integral of exp(t reach) E exp(-t sum) / t along the vertical line through its real
/// saddlepoint (H. E. Daniels, "Saddlepoint approximations in statistics", Ann. Math. Statist. 25,
/// 1954, where it is the start of a series; here the integral itself is done, by Gauss-Legendre
/// panels), so that nothing cancels in the tails. Where the transform falls off slowly, the widest
/// part is split at its corners and each corner's path turned to where it decays.
/// What a path adds up and how much of it cancels is its own account of its error: where that is
/// not met, or anything is no number, the straight line is taken, on which nothing grows; where
/// that fails too, std::runtime_error. No answer is ever anything but a finite number.
[[nodiscard]] double invert(const SumTerms& heap, double reach, SumQuantity take);

}  // namespace trialfit::numerics
