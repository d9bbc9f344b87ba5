// SPDX-License-Identifier: MIT
#pragma once

#include <Eigen/Core>
#include <map>
#include <trialfit/numerics/distribution/sum.hpp>
#include <trialfit/numerics/random/sampler.hpp>
#include <trialfit/stack/model/model.hpp>
#include <trialfit/stack/radial/axes.hpp>
#include <utility>
#include <vector>

namespace trialfit::odds {

/// `form` as independent contributors: one for each untied size, and one normal for all tied ones.
[[nodiscard]] std::vector<numerics::Contributor> contributors(const stack::Model& model,
                                                              const stack::Form& form);

/// The sizes of a model as the kernel wants them: independent laws, and the tied sizes as one
/// jointly normal lot with their adjusted means and covariance. Where a few forms lean on many tied
/// sizes, the lot is what each form has of them in place of the sizes.
class Spreads {
public:
    /// Takes in the sizes that any of `forms` leans on, and those of `vectors`, each with a
    /// direction of its own: an angle in radians, uniform on the circle, as one more size.
    Spreads(const stack::Model& model, const std::vector<stack::Form>& forms,
            const std::vector<stack::Vector>& vectors = {});

    [[nodiscard]] const numerics::Population& population() const { return population_; }
    [[nodiscard]] const stack::Model& model() const { return *model_; }

    [[nodiscard]] std::vector<numerics::Contributor> contributors(const stack::Form& form) const {
        return odds::contributors(*model_, form);
    }
    /// The size (column of the model) of each contributor; -1 for the tied lot.
    [[nodiscard]] std::vector<int> sizes_of(const stack::Form& form) const;
    [[nodiscard]] numerics::SumDistribution distribution(const stack::Form& form) const;

    /// How many of the tied sizes taken in, and of those tied to them, are spread otherwise than
    /// normally and yet count so.
    [[nodiscard]] std::size_t counted_as_normal() const;

    /// Where a size, and the direction of a vector's size, stand in the population.
    [[nodiscard]] std::size_t column_of(int size) const;
    [[nodiscard]] std::size_t direction_of(int size) const;

    /// `form` between limits, over the population. One of the forms taken in, else
    /// std::out_of_range where what forms have of tied sizes stands in their place.
    [[nodiscard]] numerics::LinearCheck row(const stack::Form& form, double lower,
                                            double upper) const;

private:
    using Terms = std::vector<std::pair<int, double>>;
    [[nodiscard]] Terms tied_terms(const stack::Form& form) const;
    void lay_tied(const std::vector<stack::Form>& forms, bool may_sum);
    void lay_sums();

    const stack::Model* model_;
    numerics::Population population_;
    std::vector<Eigen::Index> place_;  // of each size in the population, -1 where not in it
    std::vector<int> directed_;        // sizes with a direction
    std::vector<int> untied_;
    std::vector<int> tied_;
    std::map<Terms, std::size_t> sums_;  // what forms have of tied sizes: its column in the lot
};

}  // namespace trialfit::odds
