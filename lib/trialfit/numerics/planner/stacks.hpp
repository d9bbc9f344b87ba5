// SPDX-License-Identifier: MIT
#pragma once

#include <cstddef>
#include <vector>

#include <trialfit/numerics/planner/deadline.hpp>
#include <trialfit/numerics/planner/problem.hpp>
#include <trialfit/numerics/planner/tolerances.hpp>

namespace trialfit::numerics {

/// Stacks that differ in nothing but which pieces they are made of.
struct StackPoint {
    double thickness = 0.0;
    double spread = 0.0;  ///< worst case: half-width; RSS: sum of squared half-widths
    double price = 0.0;
    int count = 0;
    /// The stacks, each as stock indices in ascending order, in file order.
    std::vector<std::vector<std::size_t>> stacks;
};

struct StackChoice {
    std::vector<StackPoint> points;  ///< by thickness, then price
    bool complete = true;            ///< false where there were too many to hold
};

/// What keeps the stacks of a bin few.
struct StackBounds {
    double thickest = kInfinity;  ///< no plan has a thicker one
    std::size_t limit = 100000;   ///< so many are held
    Deadline* clock = nullptr;    ///< once it is over, no more are made
};

/// Which stock entries can run short: those with fewer pieces than all bins together could take.
[[nodiscard]] std::vector<bool> scarce_stock(const Problem& problem);

/// Every stack worth fitting to a bin. Left out are stacks for which there is another of the same
/// thickness that is no worse in spread, price, count and use of scarce stock.
[[nodiscard]] StackChoice stack_choice(const Problem& problem, std::size_t bin_index,
                                       const std::vector<bool>& scarce,
                                       const StackBounds& bounds = {});

}  // namespace trialfit::numerics
