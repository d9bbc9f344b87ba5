// SPDX-License-Identifier: MIT
#pragma once

#include <optional>
#include <trialfit/numerics/linear/dense.hpp>
#include <trialfit/stack/model/model.hpp>
#include <vector>

namespace trialfit::survey {

/// What else binds the sizes, to weigh one more misfit against. With c the covariances of the
/// misfit with the others, M theirs and w what they are, the misfit given them has the variance
/// s = var - c' M^-1 c and the value r = misfit - c' M^-1 w: the conditional normal distribution
/// (T. W. Anderson, An Introduction to Multivariate Statistical Analysis, 2.5). A pair known better
/// than 1e-6 of the file's unit is weighed as if it were not. What the others give of sizes that
/// nobody has measured is put in first; a misfit that stays open says nothing: it is 0, give or
/// take as much as a part may be long.
class Others {
public:
    Others(const stack::Model& model, const std::vector<const stack::Form*>& forms);

    /// r^2 / s: what the misfit adds to the chi-square of the others.
    [[nodiscard]] double chi_square(const stack::Form& misfit) const;
    /// Twice the negative log of its likelihood but for a constant: r^2 / s + log s.
    [[nodiscard]] double cost(const stack::Form& misfit) const;
    /// r, and the root of s.
    struct Given {
        double is = 0.0;
        double sd = 0.0;
    };
    [[nodiscard]] Given given(const stack::Form& written) const;

private:
    [[nodiscard]] double shared(const stack::Form& a, const stack::Form& b) const;

    const stack::Model& model_;
    stack::Unmeasured unmeasured_;
    std::vector<stack::Form> forms_;
    Eigen::VectorXd variance_;
    std::optional<numerics::SemidefiniteFactor> factor_;  // none where nothing else binds
    Eigen::VectorXd solved_;
};

}  // namespace trialfit::survey
