// SPDX-License-Identifier: MIT
// A problem laid out for the search. Margins are reckoned in "units" that simply add up: the
// half-widths in the worst case, their squares by RSS.
#pragma once

#include <cstddef>
#include <cstdint>
#include <vector>

#include <trialfit/plan/search/clock.hpp>
#include <trialfit/plan/search/plan.hpp>
#include <trialfit/plan/search/tolerances.hpp>
#include <trialfit/plan/settle/stacks.hpp>

namespace trialfit::plan {

/// A limit that may give way, by up to `at_most`, at a cost per unit.
struct Loosening {
    Limit limit;
    double cost = 0.0;
    double at_most = 0.0;
};

/// What is minimised: a weighted sum. Order: earlier cuts and earlier stock first.
struct Goal {
    double cost = 1.0;
    double aim = 0.0;
    double price = 0.0;  ///< of the pieces of seats that are set to an aim
    double shim = 0.0;
    double order = 0.0;
};

/// What ties are broken by: cost before aims before what a seat set to an aim takes from stock
/// before pieces before order.
[[nodiscard]] Goal tie_goal(const Problem& problem);

/// A matrix with a row for each demand.
class Table {
public:
    Table() = default;
    Table(std::size_t rows, std::size_t columns)
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

struct Range {
    double least = 0.0;
    double most = 0.0;
};

enum class State : std::int8_t { open, uncut, cut };

struct Model {
    /// Borrows the problem, which must outlive the model.
    explicit Model(const Problem& given, std::vector<Loosening> may_give = {},
                   Clock* clock = nullptr);

    [[nodiscard]] double margin(double units) const;
    /// The most units whose margin is no more than `margin`.
    [[nodiscard]] double units(double margin) const;
    /// Units of the row's shared sizes: least and most over the cuts still open.
    [[nodiscard]] Range shared_units(std::size_t row, const std::vector<State>& states) const;
    /// Units in force for a selection.
    [[nodiscard]] double units_of(std::size_t row, const Selection& selection) const;
    /// Fewest pieces of the n-th scarce stock entry among the stacks of a point.
    [[nodiscard]] int least_use(std::size_t seat, std::size_t point, std::size_t n) const {
        return uses_[seat][point * scarce_kinds.size() + n];
    }
    /// Where the middle may lie for a selection, loosenings aside.
    [[nodiscard]] Allowed allowed(std::size_t row, const Selection& selection) const;

    const Problem* problem;
    std::size_t cuts, seats, rows;
    std::vector<StackChoice> choices;  ///< one for each seat
    std::vector<bool> scarce;
    std::vector<std::size_t> scarce_kinds;  ///< their stock indices
    bool complete = true;                   ///< every stack worth having is among the choices

    Table per_depth, when_cut, uncut, cut;  ///< by cut; the latter two in units
    Table per_stack, stack_weight;          ///< by seat; units = weight * StackPoint::spread
    std::vector<double> fixed;              ///< units of each row that no decision touches

    std::vector<Loosening> loosenings;
    Table loose_gap, loose_lower, loose_upper;  ///< by loosening: gap gained, limits moved apart
    std::vector<std::size_t> loose_cut;         ///< the cut that must be made, or `cuts` for none

private:
    void choose_stacks(Clock* clock);
    /// No stack of a seat is thicker than the former; no plan has one thicker than the latter.
    [[nodiscard]] double tallest(std::size_t seat) const;
    [[nodiscard]] double thickest_of_use(std::size_t seat) const;
    void count_uses();
    std::vector<std::vector<int>> uses_;  // by seat: point, then scarce kind
};

}  // namespace trialfit::plan
