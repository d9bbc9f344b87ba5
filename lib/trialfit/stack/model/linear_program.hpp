// SPDX-License-Identifier: MIT
#pragma once

#include <Eigen/Core>
#include <memory>
#include <optional>
#include <utility>

namespace trialfit::stack {

/// Maximise objective . x subject to rows x = right, lower <= x <= upper (all bounds finite).
struct LinearProgram {
    Eigen::VectorXd objective;
    Eigen::MatrixXd rows;
    Eigen::VectorXd right;
    Eigen::VectorXd lower;
    Eigen::VectorXd upper;
};

// The planner has a simplex of its own (plan/settle/simplex.hpp), a floor up and for other work:
// thousands of programs with inequality rows, each begun from the one before. Here each row is an
// equality, and what counts is that the steps cannot cycle and that no error adds up.

/// All x that keep a program's rows and bounds, with one such x to begin from: the feasible set is
/// looked for once, however many objectives are then asked. Bounded primal simplex (V. Chvatal,
/// Linear Programming, 1983, chapters 3 and 8): the steepest variable enters; after a run of steps
/// that gain nothing, Bland's rule, which cannot cycle, takes over. The basis is inverted anew
/// every few dozen steps and before an answer is given.
class FeasibleSet {
public:
    /// Nothing where no x keeps every row and bound (to 1e-9 of the largest bound). The program's
    /// objective is not looked at.
    [[nodiscard]] static std::optional<FeasibleSet> of(const LinearProgram& program);
    /// The greatest objective . x.
    [[nodiscard]] double maximum(const Eigen::VectorXd& objective) const;

private:
    class Simplex;
    explicit FeasibleSet(std::shared_ptr<const Simplex> start) : start_(std::move(start)) {}
    std::shared_ptr<const Simplex> start_;
};

/// The greatest objective of one program, or nothing where no x is feasible.
[[nodiscard]] std::optional<double> maximum(const LinearProgram& program);

}  // namespace trialfit::stack
