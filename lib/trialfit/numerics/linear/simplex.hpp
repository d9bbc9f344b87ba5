// SPDX-License-Identifier: MIT
#pragma once

#include <cstddef>
#include <vector>

namespace trialfit::numerics {

/// A small dense linear program: minimise c.x with x_j in [l_j, u_j] and each row sum a_ij x_j in
/// [l_i, u_i]. Every bound is finite, so that any basis can be made dual feasible by putting
/// variables at their other bound: a solve may start from any earlier one, after any change of
/// costs and bounds. Dual simplex with bound flipping (I. Maros, Computational Techniques of the
/// Simplex Method, 2003, ch. 10) on a condensed tableau. Variables 0..columns-1 are the x_j,
/// columns..columns+rows-1 the rows.
class Simplex {
public:
    enum class Outcome {
        optimal,
        infeasible,
        cutoff,   ///< the objective is above the cutoff
        stalled,  ///< iterations ran out; objective() is still a lower bound
    };

    Simplex() = default;
    /// `matrix` row by row; all costs 0, all bounds [0, 0].
    Simplex(std::size_t rows, std::size_t columns, const std::vector<double>& matrix);

    /// lower <= upper, both finite.
    void set_bounds(std::size_t variable, double lower, double upper) {
        lower_[variable] = lower;
        upper_[variable] = upper;
    }
    void set_cost(std::size_t column, double cost);
    /// Columns that are basic in `other` are made basic here, as far as they are independent: a
    /// start from another program's basis.
    void take_basis(const Simplex& other);

    Outcome solve(double cutoff, std::size_t iterations);

    /// c.x; a lower bound on it unless optimal.
    [[nodiscard]] double objective() const { return objective_; }
    [[nodiscard]] double value(std::size_t variable) const;
    [[nodiscard]] bool is_basic(std::size_t variable) const { return place_[variable] >= 0; }
    /// Rate at which the objective grows with a variable, 0 when basic; a row's is its multiplier.
    [[nodiscard]] double reduced_cost(std::size_t variable) const;

    [[nodiscard]] std::size_t rows() const { return rows_; }
    [[nodiscard]] std::size_t columns() const { return columns_; }
    [[nodiscard]] double lower(std::size_t variable) const { return lower_[variable]; }
    [[nodiscard]] double upper(std::size_t variable) const { return upper_[variable]; }

private:
    struct PricedSelection {
        std::size_t column;
        double ratio;
    };

    void place_nonbasics();
    void recompute_basics();
    [[nodiscard]] std::size_t most_violated() const;  // rows_ when none is
    [[nodiscard]] bool step(std::size_t row);
    void pivot(std::size_t row, std::size_t column);
    void shift_nonbasic(std::size_t column, double by);

    [[nodiscard]] double* row_of(std::size_t row) { return tableau_.data() + row * stride_; }
    [[nodiscard]] const double* row_of(std::size_t row) const {
        return tableau_.data() + row * stride_;
    }

    std::size_t rows_ = 0;
    std::size_t columns_ = 0;
    std::size_t stride_ = 0;
    std::vector<double> tableau_;  // basic variables in terms of the nonbasic ones
    std::vector<double> reduced_;  // of the nonbasic columns
    std::vector<double> at_;       // values of the nonbasic columns
    std::vector<double> basics_;   // values of the basic rows
    std::vector<double> pivot_row_;
    std::vector<std::size_t> basic_;     // variable of each tableau row
    std::vector<std::size_t> nonbasic_;  // variable of each tableau column
    std::vector<std::ptrdiff_t> place_;  // of each variable: row >= 0, or -1 - column
    std::vector<double> costs_;          // of the columns, as set
    std::vector<double> lower_;
    std::vector<double> upper_;
    std::vector<PricedSelection> candidates_;
    double objective_ = 0.0;
};

}  // namespace trialfit::numerics
