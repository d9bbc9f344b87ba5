// SPDX-License-Identifier: MIT
#include <Eigen/LU>
#include <algorithm>
#include <cmath>
#include <limits>
#include <trialfit/stack/linear_program.hpp>
#include <vector>

namespace trialfit::stack {

namespace {

constexpr double kReducedCost = 1e-11;
constexpr double kPivot = 1e-11;
constexpr double kFeasible = 1e-9;

// The program with one artificial variable a row; x holds all variables, basic ones included.
class Simplex {
public:
    explicit Simplex(const LinearProgram& program)
        : real_(program.objective.size()), rows_(program.rows.rows()), right_(program.right) {
        const Eigen::Index all = real_ + rows_;
        matrix_ = Eigen::MatrixXd::Zero(rows_, all);
        matrix_.leftCols(real_) = program.rows;
        lower_ = Eigen::VectorXd::Zero(all);
        lower_.head(real_) = program.lower;
        upper_ = Eigen::VectorXd::Constant(all, std::numeric_limits<double>::infinity());
        upper_.head(real_) = program.upper;
        x_.setZero(all);
        x_.head(real_) = program.lower;
        basic_.resize(static_cast<std::size_t>(rows_));
        is_basic_.assign(static_cast<std::size_t>(all), false);
        const Eigen::VectorXd residual = program.right - program.rows * program.lower;
        for (Eigen::Index row = 0; row < rows_; ++row) {
            matrix_(row, real_ + row) = residual[row] < 0.0 ? -1.0 : 1.0;
            x_[real_ + row] = std::abs(residual[row]);
            basic_[static_cast<std::size_t>(row)] = real_ + row;
            is_basic_[static_cast<std::size_t>(real_ + row)] = true;
        }
    }

    // Drives the artificials to zero; false where that cannot be.
    bool find_feasible(double scale) {
        Eigen::VectorXd cost = Eigen::VectorXd::Zero(real_ + rows_);
        cost.tail(rows_).setConstant(-1.0);
        maximise(cost);
        if (x_.tail(rows_).sum() > kFeasible * scale) return false;
        upper_.tail(rows_).setZero();
        return true;
    }

    double best(const Eigen::VectorXd& objective) {
        Eigen::VectorXd cost = Eigen::VectorXd::Zero(real_ + rows_);
        cost.head(real_) = objective;
        maximise(cost);
        return objective.dot(x_.head(real_));
    }

private:
    void maximise(const Eigen::VectorXd& cost) {
        while (true) {
            const Eigen::FullPivLU<Eigen::MatrixXd> basis(basis_matrix());
            Eigen::VectorXd basic_cost(rows_);
            for (Eigen::Index row = 0; row < rows_; ++row)
                basic_cost[row] = cost[basic(row)];
            const Eigen::VectorXd prices = basis.transpose().solve(basic_cost);
            const Eigen::Index entering = pick_entering(cost, prices);
            if (entering < 0) return;
            move_in(entering, cost[entering] - prices.dot(matrix_.col(entering)) > 0.0, basis);
        }
    }

    // Bland: the first variable that improves.
    [[nodiscard]] Eigen::Index pick_entering(const Eigen::VectorXd& cost,
                                             const Eigen::VectorXd& prices) const {
        for (Eigen::Index j = 0; j < cost.size(); ++j) {
            if (is_basic_[static_cast<std::size_t>(j)] || lower_[j] == upper_[j]) continue;
            const double gain = cost[j] - prices.dot(matrix_.col(j));
            const bool at_lower = x_[j] == lower_[j];
            if (at_lower ? gain > kReducedCost : gain < -kReducedCost) return j;
        }
        return -1;
    }

    void move_in(Eigen::Index entering, bool rising,
                 const Eigen::FullPivLU<Eigen::MatrixXd>& basis) {
        const double way = rising ? 1.0 : -1.0;
        const Eigen::VectorXd change = -way * basis.solve(matrix_.col(entering));
        double step = upper_[entering] - lower_[entering];
        Eigen::Index leaving_row = -1;
        for (Eigen::Index row = 0; row < rows_; ++row) {
            if (std::abs(change[row]) < kPivot) continue;
            const Eigen::Index j = basic(row);
            const double room = change[row] > 0.0 ? upper_[j] - x_[j] : lower_[j] - x_[j];
            const double reach = std::max(0.0, room / change[row]);
            const bool first =
                reach < step || (reach == step && leaving_row >= 0 && j < basic(leaving_row));
            if (first) {
                step = reach;
                leaving_row = row;
            }
        }
        for (Eigen::Index row = 0; row < rows_; ++row)
            x_[basic(row)] += step * change[row];
        if (leaving_row < 0) {
            x_[entering] = rising ? upper_[entering] : lower_[entering];
            return;
        }
        const Eigen::Index leaving = basic(leaving_row);
        x_[leaving] = change[leaving_row] > 0.0 ? upper_[leaving] : lower_[leaving];
        x_[entering] += way * step;
        is_basic_[static_cast<std::size_t>(leaving)] = false;
        is_basic_[static_cast<std::size_t>(entering)] = true;
        basic_[static_cast<std::size_t>(leaving_row)] = entering;
        refresh();
    }

    // Solves the basic variables anew, so that steps do not gather rounding.
    void refresh() {
        Eigen::VectorXd rest = right_;
        for (Eigen::Index j = 0; j < x_.size(); ++j) {
            if (!is_basic_[static_cast<std::size_t>(j)]) rest -= matrix_.col(j) * x_[j];
        }
        const Eigen::VectorXd solved = basis_matrix().fullPivLu().solve(rest);
        for (Eigen::Index row = 0; row < rows_; ++row)
            x_[basic(row)] = solved[row];
    }

    [[nodiscard]] Eigen::MatrixXd basis_matrix() const {
        Eigen::MatrixXd basis(rows_, rows_);
        for (Eigen::Index row = 0; row < rows_; ++row)
            basis.col(row) = matrix_.col(basic(row));
        return basis;
    }

    [[nodiscard]] Eigen::Index basic(Eigen::Index row) const {
        return basic_[static_cast<std::size_t>(row)];
    }

    Eigen::Index real_;
    Eigen::Index rows_;
    Eigen::MatrixXd matrix_;
    Eigen::VectorXd right_;
    Eigen::VectorXd lower_;
    Eigen::VectorXd upper_;
    Eigen::VectorXd x_;
    std::vector<Eigen::Index> basic_;
    std::vector<bool> is_basic_;
};

}  // namespace

std::optional<double> maximum(const LinearProgram& program) {
    const double scale =
        std::max({1.0, program.lower.cwiseAbs().maxCoeff(), program.upper.cwiseAbs().maxCoeff()});
    Simplex simplex(program);
    if (!simplex.find_feasible(scale)) return std::nullopt;
    return simplex.best(program.objective);
}

}  // namespace trialfit::stack
