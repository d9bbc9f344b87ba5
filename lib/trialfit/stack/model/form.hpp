// SPDX-License-Identifier: MIT
#pragma once

#include <Eigen/SparseCore>
#include <trialfit/quantity/size.hpp>
#include <vector>

namespace trialfit::stack {

/// A linear form c + sum s_i x_i in the sizes x_i. The s_i are the sensitivities, dimensionless
/// (1/taper for a cone's diameter).
struct Form {
    double constant = 0.0;
    Eigen::SparseVector<double> sensitivities;
};

/// The sizes of a job as columns, one entry a size.
struct SizeColumns {
    Eigen::VectorXd nominal;
    Eigen::VectorXd middle;
    Eigen::VectorXd half_width;
    Eigen::VectorXd sd;
    Eigen::VectorXd lower;
    Eigen::VectorXd upper;
};

/// The sizes' figures, one column each, in their order.
[[nodiscard]] SizeColumns columns(const std::vector<quantity::Size>& sizes);

/// `form` at the values `x`.
[[nodiscard]] double value(const Form& form, const Eigen::VectorXd& x);

/// Outboard one minus inboard one: a gap.
[[nodiscard]] Form difference(const Form& outboard, const Form& inboard);

/// Gathers a form term by term; terms of the same size add up, and those that cancel vanish.
class FormBuilder {
public:
    void add(double constant) { constant_ += constant; }
    void add(int size, double sensitivity) { terms_.push_back({size, sensitivity}); }
    /// Adds `times` the whole of `form`.
    void add(const Form& form, double times);
    /// The form over `sizes` sizes.
    [[nodiscard]] Form build(Eigen::Index sizes) &&;

private:
    struct Term {
        int size;
        double sensitivity;
    };
    double constant_ = 0.0;
    std::vector<Term> terms_;
};

}  // namespace trialfit::stack
