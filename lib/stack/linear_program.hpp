// SPDX-License-Identifier: MIT
#pragma once

#include <Eigen/Core>
#include <optional>

namespace trialfit::stack {

/// Maximise objective . x subject to rows x = right, lower <= x <= upper (all bounds finite).
struct LinearProgram {
    Eigen::VectorXd objective;
    Eigen::MatrixXd rows;
    Eigen::VectorXd right;
    Eigen::VectorXd lower;
    Eigen::VectorXd upper;
};

// The planner has a simplex of its own (plan/simplex.hpp), a floor up and for other work: thousands
// of programs with inequality rows, each begun from the one before. Here a few programs are solved
// once, from nothing, each row an equality; what counts is that they cannot cycle and that a pivot
// is factored anew, so that no error adds up. Neither could do the other's work as it is.

/// The greatest objective, or nothing where no x keeps every row and bound (to 1e-9 of the largest
/// bound). Two-phase primal simplex for bounded variables with Bland's rule, which cannot cycle
/// (V. Chvatal, Linear Programming, 1983, chapters 3 and 8). Meant for few rows: each step factors
/// a square of as many.
[[nodiscard]] std::optional<double> maximum(const LinearProgram& program);

}  // namespace trialfit::stack
