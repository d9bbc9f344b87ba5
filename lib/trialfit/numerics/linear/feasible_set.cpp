// SPDX-License-Identifier: MIT
#include <algorithm>
#include <stdexcept>
#include <trialfit/numerics/infinity.hpp>
#include <trialfit/numerics/linear/feasible_set.hpp>
#include <utility>
#include <vector>

namespace trialfit::numerics {

namespace {

// Rows may miss their right side by this share of the largest bound: what sums of that size round
// to, with room to spare.
constexpr double kRowRounding = 1e-9;
// Dual steps for each row and column before a solve counts as going in circles. The sums met here
// take fewer steps than they have rows and columns.
constexpr std::size_t kStepsEach = 20;

std::size_t steps_for(const Simplex& simplex) {
    return kStepsEach * (simplex.rows() + simplex.columns() + 1);
}

// Unlike costs, in no order: with all alike (all 0 say) the steps might go in circles.
double unlike_cost(std::size_t column) {
    constexpr std::size_t kPrime = 101;
    constexpr std::size_t kStride = 37;
    return 1.0 + static_cast<double>(column * kStride % kPrime) / static_cast<double>(kPrime);
}

// The rows in y, x = middle + half_width y, each in units of the most that it can move.
struct Scaled {
    Eigen::MatrixXd rows;
    Eigen::VectorXd right;
    Eigen::VectorXd unit;  // of each row
};

Scaled scaled(const LinearProgram& program, const Eigen::VectorXd& middle,
              const Eigen::VectorXd& half_width, double rounding) {
    Scaled all{.rows = program.rows * half_width.asDiagonal(),
               .right = program.right - program.rows * middle};
    all.unit = all.rows.cwiseAbs().rowwise().sum().cwiseMax(rounding);
    all.rows = all.unit.cwiseInverse().asDiagonal() * all.rows;
    all.right = all.right.cwiseQuotient(all.unit);
    return all;
}

std::optional<Simplex> begun(const Scaled& all, double row_slack) {
    const auto rows = static_cast<std::size_t>(all.rows.rows());
    const auto columns = static_cast<std::size_t>(all.rows.cols());
    std::vector<double> matrix;
    matrix.reserve(rows * columns);
    for (Eigen::Index i = 0; i < all.rows.rows(); ++i)
        for (Eigen::Index j = 0; j < all.rows.cols(); ++j)
            matrix.push_back(all.rows(i, j));
    Simplex simplex(rows, columns, matrix);
    for (std::size_t j = 0; j < columns; ++j) {
        const bool moves = !all.rows.col(static_cast<Eigen::Index>(j)).isZero(0.0);
        simplex.set_bounds(j, moves ? -1.0 : 0.0, moves ? 1.0 : 0.0);
        simplex.set_cost(j, unlike_cost(j));
    }
    for (std::size_t i = 0; i < rows; ++i) {
        const auto row = static_cast<Eigen::Index>(i);
        const double slack = row_slack / all.unit[row];
        simplex.set_bounds(columns + i, all.right[row] - slack, all.right[row] + slack);
    }
    if (simplex.solve(kInfinity, steps_for(simplex)) != Simplex::Outcome::optimal)
        return std::nullopt;
    return simplex;
}

}  // namespace

FeasibleSet::FeasibleSet(const LinearProgram& program, Simplex start)
    : start_(std::move(start)),
      middle_((program.lower + program.upper) / 2.0),
      half_width_((program.upper - program.lower) / 2.0) {}

std::optional<FeasibleSet> FeasibleSet::of(const LinearProgram& program) {
    const double largest =
        std::max({1.0, program.lower.cwiseAbs().maxCoeff(), program.upper.cwiseAbs().maxCoeff()});
    const double rounding = kRowRounding * largest;
    const Scaled all = scaled(program, (program.lower + program.upper) / 2.0,
                              (program.upper - program.lower) / 2.0, rounding);
    auto start = begun(all, 0.0);
    if (!start) start = begun(all, rounding);
    if (!start) return std::nullopt;
    return FeasibleSet(program, *std::move(start));
}

double FeasibleSet::maximum(const Eigen::VectorXd& objective) const {
    Simplex simplex = start_;
    const Eigen::VectorXd scaled = objective.cwiseProduct(half_width_);
    for (Eigen::Index j = 0; j < scaled.size(); ++j)
        simplex.set_cost(static_cast<std::size_t>(j), -scaled[j]);
    if (simplex.solve(kInfinity, steps_for(simplex)) == Simplex::Outcome::stalled) {
        // Costs a trifle apart lead out of the circle; the trifle stays below rounding.
        const double trifle = 1e-14 * std::max(1e-300, scaled.cwiseAbs().maxCoeff());
        for (Eigen::Index j = 0; j < scaled.size(); ++j) {
            const auto column = static_cast<std::size_t>(j);
            simplex.set_cost(column, -scaled[j] + trifle * unlike_cost(column));
        }
        if (simplex.solve(kInfinity, steps_for(simplex)) != Simplex::Outcome::optimal)
            throw std::logic_error("the linear program of the worst case goes in circles");
    }
    double most = objective.dot(middle_);
    for (Eigen::Index j = 0; j < scaled.size(); ++j)
        most += scaled[j] * simplex.value(static_cast<std::size_t>(j));
    return most;
}

std::optional<double> maximum(const LinearProgram& program) {
    const auto set = FeasibleSet::of(program);
    if (!set) return std::nullopt;
    return set->maximum(program.objective);
}

}  // namespace trialfit::numerics
