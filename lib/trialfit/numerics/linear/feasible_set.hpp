// SPDX-License-Identifier: MIT
#pragma once

#include <Eigen/Core>
#include <Eigen/SparseCore>
#include <cstddef>
#include <memory>
#include <optional>
#include <vector>

namespace trialfit::numerics {

/// Maximise objective . x subject to rows x = right, lower <= x <= upper (all bounds finite).
struct LinearProgram {
    Eigen::VectorXd objective;
    Eigen::MatrixXd rows;
    Eigen::VectorXd right;
    Eigen::VectorXd lower;
    Eigen::VectorXd upper;
};

/// All x that keep a program's rows and bounds, for many objectives of few variables. Columns that
/// are multiples of one another and have as much of the objective for each unit of their direction
/// move as one column, within the sum of their ranges; what is solved is the program of those
/// columns, by Simplex. It is no larger than the rows and the objective are varied, however many
/// variables there are. What extremes() found is remembered, for the copies of a set too; it may be
/// asked from several threads.
class FeasibleSet {
public:
    /// Nothing where no x keeps every row and bound (rows to 1e-9 of the largest bound). The
    /// program's objective is not looked at.
    [[nodiscard]] static std::optional<FeasibleSet> of(const LinearProgram& program);
    /// The greatest objective . x.
    [[nodiscard]] double maximum(const Eigen::SparseVector<double>& objective) const;
    struct Extremes {
        double least = 0.0;
        double greatest = 0.0;
    };
    /// The least and the greatest objective . x.
    [[nodiscard]] Extremes extremes(const Eigen::SparseVector<double>& objective) const;
    /// One variable with less room about the same middle.
    struct Narrowed {
        Eigen::Index variable = 0;
        double half_width = 0.0;  ///< at most its own
    };
    /// The same were one variable narrowed, for each of `all` in turn; nothing where no x is then
    /// left.
    [[nodiscard]] std::vector<std::optional<Extremes>> extremes_if(
        const Eigen::SparseVector<double>& objective, const std::vector<Narrowed>& all) const;

private:
    class Memory;
    // A direction of columns: the rows that it moves, its first entry 1.
    struct Direction {
        Eigen::VectorXd along;
        double reach = 0.0;  // by how much its columns move it together, either way
        std::size_t columns = 0;
    };
    // A column is `times` its direction; `reach` is its half-width along it. Direction -1: it moves
    // no row.
    struct Column {
        int direction = -1;
        double times = 0.0;
        double reach = 0.0;
    };
    // Columns that move as one.
    struct Merged {
        int direction = 0;
        double gain = 0.0;  // of the objective, for each unit along the direction
        double reach = 0.0;
    };

    explicit FeasibleSet(const LinearProgram& program);
    [[nodiscard]] std::vector<Merged> merged(const Eigen::SparseVector<double>& objective) const;
    [[nodiscard]] std::optional<double> solve(const std::vector<Merged>& columns,
                                              double slack) const;
    [[nodiscard]] std::optional<double> gained(const std::vector<Merged>& columns) const;
    [[nodiscard]] double loose(const Eigen::SparseVector<double>& objective) const;

    std::vector<Direction> directions_;
    std::vector<Column> columns_;
    Eigen::VectorXd middle_;
    Eigen::VectorXd half_width_;
    Eigen::VectorXd right_;  // with every variable at its middle taken off
    Eigen::VectorXd unit_;   // of each row: the most that it can move
    double rounding_ = 0.0;  // by which rows may miss where there is no room at all
    std::shared_ptr<Memory> memory_;
};

/// The greatest objective of one program, or nothing where no x is feasible.
[[nodiscard]] std::optional<double> maximum(const LinearProgram& program);

}  // namespace trialfit::numerics
