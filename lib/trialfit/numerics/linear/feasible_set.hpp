// SPDX-License-Identifier: MIT
#pragma once

#include <Eigen/Core>
#include <memory>
#include <optional>
#include <trialfit/numerics/linear/simplex.hpp>

namespace trialfit::numerics {

/// Maximise objective . x subject to rows x = right, lower <= x <= upper (all bounds finite).
struct LinearProgram {
    Eigen::VectorXd objective;
    Eigen::MatrixXd rows;
    Eigen::VectorXd right;
    Eigen::VectorXd lower;
    Eigen::VectorXd upper;
};

/// All x that keep a program's rows and bounds: the feasible set is looked for once, however many
/// objectives are then asked. Each begins from the basis that the search ended with, with every
/// variable in units of its half-width about its middle.
class FeasibleSet {
public:
    /// Nothing where no x keeps every row and bound (rows to 1e-9 of the largest bound). The
    /// program's objective is not looked at.
    [[nodiscard]] static std::optional<FeasibleSet> of(const LinearProgram& program);
    /// The greatest objective . x.
    [[nodiscard]] double maximum(const Eigen::VectorXd& objective) const;

private:
    FeasibleSet(const LinearProgram& program, Simplex start);

    Simplex start_;
    Eigen::VectorXd middle_;
    Eigen::VectorXd half_width_;
};

/// The greatest objective of one program, or nothing where no x is feasible.
[[nodiscard]] std::optional<double> maximum(const LinearProgram& program);

}  // namespace trialfit::numerics
