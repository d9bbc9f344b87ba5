// SPDX-License-Identifier: MIT
// A problem laid out for the search. Margins are reckoned in "units" that simply add up: the
// half-widths in the worst case, their squares by RSS.
#pragma once

#include <cstddef>
#include <cstdint>
#include <vector>

#include <trialfit/numerics/planner/deadline.hpp>
#include <trialfit/numerics/planner/solve.hpp>
#include <trialfit/numerics/planner/stacks.hpp>
#include <trialfit/numerics/planner/tolerances.hpp>

namespace trialfit::numerics {

/// A limit that may give way, by up to `at_most`, at a cost per unit.
struct Loosening {
    ConflictLimit limit;
    double cost = 0.0;
    double at_most = 0.0;
};

/// What is minimised: a weighted sum. Order: earlier activities and earlier stock first.
struct Goal {
    double cost = 1.0;
    double aim = 0.0;
    double price = 0.0;  ///< of the pieces of bins that are set to an aim
    double item = 0.0;
    double order = 0.0;
    double bin = 0.0;  ///< of each that carries anything
};

/// What ties are broken by: cost before aims before what a bin set to an aim takes from stock
/// before pieces before bins that carry any before order.
[[nodiscard]] Goal tie_goal(const Problem& problem);

/// A matrix with a row for each demand.
class RowTable {
public:
    RowTable() = default;
    RowTable(std::size_t rows, std::size_t columns)
        : columns_(columns), values_(rows * columns, 0.0) {}
    double& operator()(std::size_t row, std::size_t column) {
        return values_[row * columns_ + column];
    }
    double operator()(std::size_t row, std::size_t column) const {
        return values_[row * columns_ + column];
    }

private:
    std::size_t columns_ = 0;
    std::vector<double> values_;
};

struct Interval {
    double least = 0.0;
    double most = 0.0;
};

enum class ActivityState : std::int8_t { open, not_done, done };

struct SearchModel {
    /// Borrows the problem, which must outlive the model.
    explicit SearchModel(const Problem& given, std::vector<Loosening> may_give = {},
                         Deadline* clock = nullptr);

    [[nodiscard]] double margin(double units) const;
    /// The most units whose margin is no more than `margin`.
    [[nodiscard]] double units(double margin) const;
    /// Units of the row's shared sizes: least and most over the activities still open.
    [[nodiscard]] Interval shared_units(std::size_t row,
                                        const std::vector<ActivityState>& states) const;
    /// Units in force for a selection.
    [[nodiscard]] double units_of(std::size_t row, const Selection& selection) const;
    /// Fewest pieces of the n-th scarce stock entry among the stacks of a point.
    [[nodiscard]] int least_use(std::size_t bin, std::size_t point, std::size_t n) const {
        return uses_[bin][point * scarce_kinds.size() + n];
    }
    /// Where the middle may lie for a selection, loosenings aside.
    [[nodiscard]] Allowed allowed(std::size_t row, const Selection& selection) const;

    const Problem* problem;
    std::size_t activities, bins, rows;
    std::vector<StackChoice> choices;  ///< one for each bin
    std::vector<bool> scarce;
    std::vector<std::size_t> scarce_kinds;  ///< their stock indices
    bool complete = true;                   ///< every stack worth having is among the choices

    RowTable per_amount, when_done, not_done, done;  ///< by activity; the latter two in units
    RowTable per_stack, stack_weight;  ///< by bin; units = weight * StackPoint::spread
    std::vector<double> fixed;         ///< units of each row that no decision touches

    std::vector<Loosening> loosenings;
    RowTable loose_gap, loose_lower, loose_upper;  ///< by loosening: gap gained, limits moved apart
    std::vector<std::size_t>
        loose_activity;  ///< the activity that must be made, or `activities` for none

private:
    void choose_stacks(Deadline* clock);
    /// No stack of a bin is thicker than the former; no plan has one thicker than the latter.
    [[nodiscard]] double tallest(std::size_t bin) const;
    [[nodiscard]] double thickest_of_use(std::size_t bin) const;
    void count_uses();
    std::vector<std::vector<int>> uses_;  // by bin: point, then scarce kind
};

}  // namespace trialfit::numerics
