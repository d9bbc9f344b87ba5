// SPDX-License-Identifier: MIT
#pragma once

#include <Eigen/Core>
#include <optional>
#include <trialfit/numerics/linear/feasible_set.hpp>
#include <trialfit/stack/answers.hpp>
#include <trialfit/stack/model/form.hpp>
#include <vector>

namespace trialfit::stack {

/// What binds sizes together: each closure is a form that must be zero, such as the two ways round
/// a part that is dimensioned more than once. Sizes that no closure touches stay independent.
class Ties {
public:
    Ties() = default;
    Ties(const std::vector<Form>& closures, const SizeColumns& sizes);

    [[nodiscard]] bool empty() const { return groups_.empty(); }

    /// Whether any closure binds this size.
    [[nodiscard]] bool tied(int size) const {
        return !empty() && group_of_size_[static_cast<std::size_t>(size)] >= 0;
    }

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

    /// Whether `form` stands on a size with limits apart that closures tie to others.
    [[nodiscard]] bool spreads(const Form& form, const SizeColumns& sizes) const;

    /// The extremes of `form` over all sizes within their limits that meet every closure: a small
    /// linear program for each group of sizes tied together, the plain sum for the rest. `sizes`
    /// are those that the ties were made with, or others with the same columns ("if this were known
    /// better"). Without end where the form stands on a size that nobody has measured.
    [[nodiscard]] Range extremes(const Form& form, const SizeColumns& sizes) const;

    /// How many sizes closures bind.
    [[nodiscard]] std::size_t tied_sizes() const;

    /// One size known better, about the same middle.
    struct Better {
        int size = -1;
        double half_width = 0.0;
        double sd = 0.0;
    };
    /// `adjusted` and `extremes` of a form were one size known better.
    struct IfBetter {
        double nominal = 0.0;
        double middle = 0.0;
        double half_width = 0.0;  ///< of the adjusted form, by squares
        Range worst;
    };
    /// For each of `all` in turn; nothing where no sizes could then meet every closure. In time
    /// that grows with the sizes and not with their square: a change of one sd changes A V A' by a
    /// matrix of rank 1 (J. Sherman and W. J. Morrison, 1950). Half-widths are good to 1e-8 of the
    /// form's as written.
    [[nodiscard]] std::vector<std::optional<IfBetter>> if_better(
        const Form& form, const SizeColumns& sizes, const std::vector<Better>& all) const;

    /// What the adjustment does to the sizes, in the notation of `adjusted`: with misclosure
    /// w = A x - b and M = A V A', residuals v = -V A' M+ w, their cofactors' diagonal q = diag(V
    /// A' M+ A V), chi-square w' M+ w with rank(M) degrees of freedom. `log_det`: log of the
    /// product of M's eigenvalues other than zero (for comparing likelihoods). Sizes that nothing
    /// ties have 0.
    struct Adjustment {
        Eigen::VectorXd residual;
        Eigen::VectorXd cofactor;
        double chi_square = 0.0;
        int freedom = 0;
        double log_det = 0.0;
    };
    [[nodiscard]] Adjustment adjust(const SizeColumns& sizes, const Eigen::VectorXd& x) const;

    /// One amount by which all sizes marked in `marked` (1, else 0) are taken to be off alike: its
    /// least-squares estimate (A e)' M+ w / (A e)' M+ (A e), the sd of that, and what it takes off
    /// the chi-square. All 0 where no closure could show it.
    struct CommonError {
        double amount = 0.0;
        double sd = 0.0;
        double chi_square_drop = 0.0;
    };
    [[nodiscard]] CommonError common_error(const Eigen::VectorXd& x,
                                           const Eigen::VectorXd& marked) const;

    /// Means and covariance of adjusted sizes (tied ones, by their columns): x^ and
    /// V - V A' M+ A V, at the sizes' middles.
    struct Joint {
        Eigen::VectorXd means;
        Eigen::MatrixXd covariance;
    };
    [[nodiscard]] Joint joint(const std::vector<int>& tied, const SizeColumns& sizes) const;

    /// The tied sizes of the groups of some of them, rising.
    [[nodiscard]] std::vector<int> with_mates(const std::vector<int>& tied) const;
    /// Adjusted sizes as what they are made of: deviations of the sizes as given, of `sd` each and
    /// independent, less gain (rows times those). For whole groups (with_mates); no matrix in it
    /// has more than the closures' entries.
    struct Parted {
        Eigen::VectorXd means;
        Eigen::VectorXd sd;
        Eigen::SparseMatrix<double> gain;
        Eigen::SparseMatrix<double> rows;
    };
    [[nodiscard]] Parted parted(const std::vector<int>& whole_groups,
                                const SizeColumns& sizes) const;

    /// Covariance of two forms of the adjusted sizes: a' (V - V A' M+ A V) b.
    [[nodiscard]] double covariance(const Form& a, const Form& b, const SizeColumns& sizes) const;

private:
    class Improved;
    // Closures that share sizes, directly or through others.
    struct Group {
        std::vector<int> sizes;
        Eigen::MatrixXd rows;
        Eigen::VectorXd right;
        Eigen::MatrixXd weight;  // M+
        Eigen::MatrixXd gain;    // V A' M+
        std::optional<numerics::FeasibleSet>
            within;  // all sizes within their limits that meet the closures
    };

    [[nodiscard]] static Eigen::VectorXd part_of(const Form& form, const Group& group);
    [[nodiscard]] static Eigen::SparseVector<double> sparse_part_of(const Form& form,
                                                                    const Group& group);
    [[nodiscard]] static Form adjusted_by(const Group& group, const Form& form,
                                          const Form& adjusted);
    [[nodiscard]] std::vector<int> groups_touched(const Form& form) const;

    std::vector<Group> groups_;
    std::vector<int> group_of_size_;
    std::vector<std::vector<int>> contradictions_;
};

}  // namespace trialfit::stack
