// SPDX-License-Identifier: MIT
// Inside the room: a distribution function worked out once, to be looked up a million times.
#pragma once

#include <trialfit/numerics/distribution/sum.hpp>
#include <vector>

namespace trialfit::numerics {

/// P(sum < x) or P(sum > x) by cubic Hermite interpolation between exact values and densities, to
/// some 1e-6, or 1e-4 beside a step of the density; below 1e-14 it is 0. Exact for a sum without
/// spread.
class CdfTable {
public:
    enum class Side { below, above };
    CdfTable(const SumDistribution& sum, Side side);

    [[nodiscard]] double operator()(double x) const;

private:
    static constexpr std::size_t kCells = 256;
    Side side_;
    double from_ = 0.0;
    double step_ = 0.0;
    std::vector<double> value_;
    std::vector<double> rise_;  // density times step
};

}  // namespace trialfit::numerics
