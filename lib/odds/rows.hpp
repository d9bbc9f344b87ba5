// SPDX-License-Identifier: MIT
#pragma once

#include <Eigen/Core>
#include <trialfit/odds/sampler.hpp>
#include <trialfit/odds/sum.hpp>
#include <trialfit/stack/model.hpp>
#include <vector>

namespace trialfit::odds {

/// The sizes of a model as the kernel wants them: independent laws, and the tied sizes as one
/// jointly normal lot with their adjusted means and covariance.
class Spreads {
public:
    /// Takes in the sizes that any of `forms` leans on.
    Spreads(const stack::Model& model, const std::vector<stack::Form>& forms);

    [[nodiscard]] const Population& population() const { return population_; }

    /// `form` as independent contributors: one for each untied size, and one normal for all tied
    /// ones.
    [[nodiscard]] std::vector<Contributor> contributors(const stack::Form& form) const;
    /// The size (column of the model) of each contributor; -1 for the tied lot.
    [[nodiscard]] std::vector<int> sizes_of(const stack::Form& form) const;
    [[nodiscard]] SumDistribution distribution(const stack::Form& form) const;

    /// `form` between limits, over the population.
    [[nodiscard]] LinearCheck row(const stack::Form& form, double lower, double upper) const;

private:
    const stack::Model* model_;
    Population population_;
    std::vector<Eigen::Index> place_;  // of each size in the population, -1 where not in it
    std::vector<int> untied_;
    std::vector<int> tied_;
};

}  // namespace trialfit::odds
