// SPDX-License-Identifier: MIT
#pragma once

#include <span>
#include <trialfit/numerics/distribution/distribution.hpp>
#include <trialfit/numerics/distribution/inversion.hpp>
#include <vector>

namespace trialfit::numerics {

/// One independent size in a linear sum: sensitivity times a value drawn from the law.
struct Contributor {
    double sensitivity = 1.0;
    Distribution distribution;
};

/// The exact distribution of a sum of independent contributors and a constant, numerically: no
/// sampling, and no approximation but rounding. Probabilities are good to some 1e-13 relative in
/// either tail as far down as doubles go, whatever the number of contributors and however far
/// apart their scales lie (tested from 1e-9 to 1; see inversion.hpp for the method). Lengths in
/// the file's unit; densities per unit length. Immutable, so safe to share between threads.
class SumDistribution {
public:
    explicit SumDistribution(std::span<const Contributor> contributors, double constant = 0.0);

    /// P(sum < x) and P(sum > x); a sum without spread is below x where its value is <= x.
    [[nodiscard]] double cdf(double x) const;
    [[nodiscard]] double survival(double x) const;
    /// P(lower < sum < upper); either limit may be infinite.
    [[nodiscard]] double between(double lower, double upper) const;
    /// P(sum < lower or sum > upper), which keeps its digits where it is small.
    [[nodiscard]] double outside(double lower, double upper) const;
    /// Probability per unit length; infinite at the value of a sum without spread.
    [[nodiscard]] double density(double x) const;
    /// The x with P(sum < x) = p; the ends of the support for p <= 0 and p >= 1.
    [[nodiscard]] double quantile(double p) const;

    [[nodiscard]] double mean() const { return moments_.mean; }
    [[nodiscard]] double variance() const { return moments_.variance; }
    [[nodiscard]] double sd() const;
    /// Third central moment over sd^3, and fourth cumulant over sd^4; 0 without spread.
    [[nodiscard]] double skewness() const;
    [[nodiscard]] double excess_kurtosis() const;
    /// Ends of the support: the worst case; infinite with a normal in the sum.
    [[nodiscard]] Support support() const { return support_; }

private:
    // The sum seen from one end: `heap` measured inwards from `from`.
    struct Side {
        SumTerms heap;
        double from = 0.0;
        double sign = 1.0;
    };
    [[nodiscard]] double below(const Side& side, double x) const;
    [[nodiscard]] double density(const Side& side, double x) const;
    [[nodiscard]] double tail_quantile(const Side& side, double p) const;

    Moments moments_;
    Support support_;
    Side lower_;
    Side upper_;
    std::vector<Distribution> single_;
};

/// P(law < x) and the density of one law without scatter (not `gauge`), in closed form (`beta` by
/// quadrature).
[[nodiscard]] double cdf(const Distribution& law, double x);
[[nodiscard]] double density(const Distribution& law, double x);

}  // namespace trialfit::numerics
