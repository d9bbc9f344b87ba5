// SPDX-License-Identifier: MIT
#include <Eigen/Cholesky>
#include <Eigen/Eigenvalues>
#include <Eigen/QR>
#include <trialfit/numerics/linear/dense.hpp>
#include <utility>

namespace trialfit::numerics {

SymmetricEigen symmetric_eigen(const Eigen::MatrixXd& symmetric) {
    const Eigen::SelfAdjointEigenSolver<Eigen::MatrixXd> solver(symmetric);
    return {.values = solver.eigenvalues(), .vectors = solver.eigenvectors()};
}

Eigen::MatrixXd pseudo_inverse(const Eigen::MatrixXd& matrix) {
    return matrix.completeOrthogonalDecomposition().pseudoInverse();
}

ThinQr thin_qr(const Eigen::MatrixXd& a) {
    const Eigen::HouseholderQR<Eigen::MatrixXd> qr(a);
    Eigen::MatrixXd thin = qr.householderQ() * Eigen::MatrixXd::Identity(a.rows(), a.cols());
    const Eigen::MatrixXd r = thin.transpose() * a;
    Eigen::MatrixXd inverse =
        r.triangularView<Eigen::Upper>().solve(Eigen::MatrixXd::Identity(a.cols(), a.cols()));
    return {.q = std::move(thin), .r_inverse = std::move(inverse)};
}

Eigen::MatrixXd least_squares(const Eigen::MatrixXd& a, const Eigen::MatrixXd& b) {
    return a.householderQr().solve(b);
}

struct SemidefiniteFactor::Factor {
    Eigen::LDLT<Eigen::MatrixXd> of;
};

SemidefiniteFactor::SemidefiniteFactor(const Eigen::MatrixXd& symmetric)
    : factor_(std::make_shared<const Factor>(Factor{.of = symmetric.ldlt()})) {}

Eigen::MatrixXd SemidefiniteFactor::solve(const Eigen::MatrixXd& b) const {
    return factor_->of.solve(b);
}

}  // namespace trialfit::numerics
