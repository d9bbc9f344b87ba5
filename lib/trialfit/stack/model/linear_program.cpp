// SPDX-License-Identifier: MIT
#include <Eigen/LU>
#include <algorithm>
#include <cmath>
#include <limits>
#include <trialfit/stack/model/linear_program.hpp>
#include <utility>
#include <vector>

namespace trialfit::stack {

namespace {

constexpr double kReducedCost = 1e-11;
constexpr double kPivot = 1e-11;
constexpr double kFeasible = 1e-9;
// Steps after which the basis is inverted anew.
constexpr int kInvertAnew = 40;
// Steps without gain after which Bland's rule takes over.
constexpr int kNoGain = 30;

}  // namespace

// The program with one artificial variable a row; x holds all variables, basic ones included.
class FeasibleSet::Simplex {
public:
    explicit Simplex(const LinearProgram& program)
        : real_(program.lower.size()), rows_(program.rows.rows()), right_(program.right) {
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
        invert();
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
        int without_gain = 0;
        bool fresh = false;
        while (true) {
            Eigen::VectorXd basic_cost(rows_);
            for (Eigen::Index row = 0; row < rows_; ++row)
                basic_cost[row] = cost[basic(row)];
            const Eigen::VectorXd prices = inverse_.transpose() * basic_cost;
            const Eigen::VectorXd gains = cost - matrix_.transpose() * prices;
            const Eigen::Index entering = pick_entering(gains, without_gain > kNoGain);
            if (entering < 0) {
                if (fresh) return;
                invert();  // and look once more, so that no step was missed for rounding
                fresh = true;
                continue;
            }
            const bool bland = without_gain > kNoGain;
            const double step = move_in(entering, gains[entering] > 0.0, bland);
            without_gain = step > 0.0 ? 0 : without_gain + 1;
            fresh = false;
            if (steps_ >= kInvertAnew) invert();
        }
    }

    // The variable that gains most by a step of its own, or by Bland the first that gains.
    [[nodiscard]] Eigen::Index pick_entering(const Eigen::VectorXd& gains, bool bland) const {
        Eigen::Index pick = -1;
        double most = kReducedCost;
        for (Eigen::Index j = 0; j < gains.size(); ++j) {
            if (is_basic_[static_cast<std::size_t>(j)] || lower_[j] == upper_[j]) continue;
            const double gain = x_[j] == lower_[j] ? gains[j] : -gains[j];
            if (gain <= most) continue;
            pick = j;
            if (bland) return pick;
            most = gain;
        }
        return pick;
    }

    // How far the variable goes in, and what leaves.
    double move_in(Eigen::Index entering, bool rising, bool bland) {
        const double way = rising ? 1.0 : -1.0;
        const Eigen::VectorXd column = inverse_ * matrix_.col(entering);
        double step = upper_[entering] - lower_[entering];
        Eigen::Index leaving_row = -1;
        for (Eigen::Index row = 0; row < rows_; ++row) {
            const double change = -way * column[row];
            if (std::abs(change) < kPivot) continue;
            const Eigen::Index j = basic(row);
            const double room = change > 0.0 ? upper_[j] - x_[j] : lower_[j] - x_[j];
            const double reach = std::max(0.0, room / change);
            const bool tie = reach == step && leaving_row >= 0;
            const bool first =
                reach < step ||
                (tie && (bland ? j < basic(leaving_row)
                               : std::abs(column[row]) > std::abs(column[leaving_row])));
            if (!first) continue;
            step = reach;
            leaving_row = row;
        }
        for (Eigen::Index row = 0; row < rows_; ++row)
            x_[basic(row)] -= step * way * column[row];
        if (leaving_row < 0) {
            x_[entering] = rising ? upper_[entering] : lower_[entering];
            return step;
        }
        const Eigen::Index leaving = basic(leaving_row);
        x_[leaving] = -way * column[leaving_row] > 0.0 ? upper_[leaving] : lower_[leaving];
        x_[entering] += way * step;
        exchange(entering, leaving_row, column);
        return step;
    }

    void exchange(Eigen::Index entering, Eigen::Index row, const Eigen::VectorXd& column) {
        is_basic_[static_cast<std::size_t>(basic(row))] = false;
        is_basic_[static_cast<std::size_t>(entering)] = true;
        basic_[static_cast<std::size_t>(row)] = entering;
        const Eigen::RowVectorXd pivot = inverse_.row(row) / column[row];
        inverse_.noalias() -= column * pivot;
        inverse_.row(row) = pivot;
        ++steps_;
    }

    // Inverts the basis and solves the basic variables anew, so that steps do not gather rounding.
    void invert() {
        Eigen::MatrixXd basis(rows_, rows_);
        for (Eigen::Index row = 0; row < rows_; ++row)
            basis.col(row) = matrix_.col(basic(row));
        const Eigen::PartialPivLU<Eigen::MatrixXd> factor(basis);
        inverse_ = factor.inverse();
        Eigen::VectorXd rest = right_;
        for (Eigen::Index j = 0; j < x_.size(); ++j) {
            if (!is_basic_[static_cast<std::size_t>(j)]) rest -= matrix_.col(j) * x_[j];
        }
        const Eigen::VectorXd solved = factor.solve(rest);
        for (Eigen::Index row = 0; row < rows_; ++row)
            x_[basic(row)] = solved[row];
        steps_ = 0;
    }

    [[nodiscard]] Eigen::Index basic(Eigen::Index row) const {
        return basic_[static_cast<std::size_t>(row)];
    }

    Eigen::Index real_;
    Eigen::Index rows_;
    Eigen::MatrixXd matrix_;
    Eigen::MatrixXd inverse_;
    Eigen::VectorXd right_;
    Eigen::VectorXd lower_;
    Eigen::VectorXd upper_;
    Eigen::VectorXd x_;
    std::vector<Eigen::Index> basic_;
    std::vector<bool> is_basic_;
    int steps_ = 0;
};

std::optional<FeasibleSet> FeasibleSet::of(const LinearProgram& program) {
    const double scale =
        std::max({1.0, program.lower.cwiseAbs().maxCoeff(), program.upper.cwiseAbs().maxCoeff()});
    auto start = std::make_shared<Simplex>(program);
    if (!start->find_feasible(scale)) return std::nullopt;
    return FeasibleSet(std::move(start));
}

double FeasibleSet::maximum(const Eigen::VectorXd& objective) const {
    Simplex simplex(*start_);
    return simplex.best(objective);
}

std::optional<double> maximum(const LinearProgram& program) {
    const auto set = FeasibleSet::of(program);
    if (!set) return std::nullopt;
    return set->maximum(program.objective);
}

}  // namespace trialfit::stack
