// SPDX-License-Identifier: MIT
#pragma once

#include <Eigen/Core>
#include <memory>

// Eigen's dense solvers behind plain functions: each is compiled once, in dense.cpp, instead of in
// every source that needs it. Sizes that do not fit each other are a fault of the caller.
namespace trialfit::numerics {

/// Eigenvalues of a symmetric matrix, least first, and the unit eigenvectors in the same order, as
/// columns. Only the lower triangle is read.
struct SymmetricEigen {
    Eigen::VectorXd values;
    Eigen::MatrixXd vectors;
};
[[nodiscard]] SymmetricEigen symmetric_eigen(const Eigen::MatrixXd& symmetric);

/// The Moore-Penrose inverse (G. H. Golub and C. F. Van Loan, Matrix Computations, 5.5.2), by a
/// complete orthogonal decomposition.
[[nodiscard]] Eigen::MatrixXd pseudo_inverse(const Eigen::MatrixXd& matrix);

/// One thin factorisation A = Q R by Householder reflections (Golub and Van Loan, 5.2), for A of
/// full column rank and at least as many rows as columns.
struct ThinQr {
    Eigen::MatrixXd q;          ///< rows of A by columns of A, orthonormal columns
    Eigen::MatrixXd r_inverse;  ///< upper triangular
};
[[nodiscard]] ThinQr thin_qr(const Eigen::MatrixXd& a);

/// X that minimises |A X - B|, for A as `thin_qr` takes it.
[[nodiscard]] Eigen::MatrixXd least_squares(const Eigen::MatrixXd& a, const Eigen::MatrixXd& b);

/// S X = B for a symmetric semidefinite S, factored once (pivoted L D L'; Golub and Van Loan,
/// 4.2.9). What S maps to nothing is left at 0.
class SemidefiniteFactor {
public:
    explicit SemidefiniteFactor(const Eigen::MatrixXd& symmetric);
    [[nodiscard]] Eigen::MatrixXd solve(const Eigen::MatrixXd& b) const;

private:
    struct Factor;
    std::shared_ptr<const Factor> factor_;
};

}  // namespace trialfit::numerics
