// SPDX-License-Identifier: MIT
#pragma once

#include <Eigen/Core>
#include <optional>
#include <trialfit/stack/answers.hpp>
#include <trialfit/stack/form.hpp>
#include <vector>

namespace trialfit::stack {

/// What binds sizes together: each closure is a form that must be zero, such as the two ways round
/// a part that is dimensioned more than once. Sizes that no closure touches stay independent.
class Ties {
public:
    Ties() = default;
    Ties(const std::vector<Form>& closures, const SizeColumns& sizes);

    [[nodiscard]] bool empty() const { return groups_.empty(); }

    /// Closures that no sizes within the limits can meet, as groups of indices into the closures;
    /// empty where the sizes agree. The other functions mean nothing while there are any.
    [[nodiscard]] const std::vector<std::vector<int>>& contradictions() const {
        return contradictions_;
    }

    /// `form` of the least-squares adjusted sizes, written in the sizes as given. With closures
    /// A x = b and V = diag(sd^2): x^ = x - V A' (A V A')^+ (A x - b), the condition adjustment
    /// (C. D. Ghilani and P. R. Wolf, Adjustment Computations, conditional least squares). A size
    /// without spread is not moved.
    [[nodiscard]] Form adjusted(const Form& form) const;

    /// The extremes of `form` over all sizes within their limits that meet every closure: a small
    /// linear program for each group of sizes tied together, the plain sum for the rest.
    [[nodiscard]] Range extremes(const Form& form, const SizeColumns& sizes) const;

private:
    // Closures that share sizes, directly or through others.
    struct Group {
        std::vector<int> sizes;
        Eigen::MatrixXd rows;
        Eigen::VectorXd right;
        Eigen::MatrixXd gain;
    };

    [[nodiscard]] Eigen::VectorXd part_of(const Form& form, const Group& group) const;
    [[nodiscard]] std::vector<int> groups_touched(const Form& form) const;

    std::vector<Group> groups_;
    std::vector<int> group_of_size_;
    std::vector<std::vector<int>> contradictions_;
};

}  // namespace trialfit::stack
