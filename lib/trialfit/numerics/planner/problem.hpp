// SPDX-License-Identifier: MIT
// A mixed-integer problem with margins: activities (each a binary with a continuous amount), bins
// (each an integer combination of stock) and rows that must hold with a margin that depends on what
// is chosen. What they stand for is the caller's business. All values of a row in one unit.
#pragma once

#include <cstddef>
#include <functional>
#include <optional>
#include <string>
#include <vector>

#include <trialfit/numerics/infinity.hpp>

namespace trialfit::numerics {

/// How the half-widths in force add up to a row's margin.
enum class MarginRule {
    worst_case,  ///< margin = sum of half-widths
    rss,         ///< margin = inflation * sqrt(sum of squared half-widths)
};

/// A column with a fixed charge: it is done or not (a binary), and where it is done it has an
/// amount (continuous), in whatever unit `Effect::per_amount` is per.
struct Activity {
    std::string name;
    double at_least = 0.0;    ///< least amount where it is done at all, >= 0
    double at_most = 0.0;     ///< greatest amount, >= at_least
    double cost = 0.0;        ///< of doing it at all, >= 0
    double per_amount = 0.0;  ///< added cost per unit of amount (the problem's unit), >= 0
    /// By how much `at_most` may give where no solution exists, >= 0.
    double may_give = kInfinity;
};

/// One kind of item in stock. An item that lies in a bin already has `pieces` 1 and price 0 and is
/// named by its own bin only: taking it out or leaving it in both cost nothing.
struct StockItem {
    double thickness = 0.0;     ///< > 0
    double half_width = 0.0;    ///< of one piece, >= 0
    double price = 0.0;         ///< of fitting one piece, >= 0
    std::optional<int> pieces;  ///< how many there are, over all bins; none = as many as wanted
};

/// An integer combination of items: how many of each lie in it. Bins that name the same `stock`
/// entries share their pieces.
struct Bin {
    std::string name;
    std::vector<std::size_t> stock;  ///< indices into Problem::stock
    int at_least = 0;                ///< fewest pieces in the stack
    int at_most = 0;                 ///< most pieces in the stack
    double grid = 0.0;               ///< the stack is a multiple of this; 0 = whatever it is
    /// Its items are chosen for the rows' aims, whatever they cost.
    bool set_to_aim = false;
};

/// What one activity does to one row. The half-widths are those in the row, so already times
/// |sensitivity|; by RSS, the root of the sum of squares of the terms concerned.
struct Effect {
    double per_amount = 0.0;  ///< gained for each unit of amount
    double when_done = 0.0;   ///< gained at amount 0
    double not_done = 0.0;    ///< half-width where it is not done
    double done = 0.0;        ///< half-width where it is done
};

/// A term of a row on which more than one activity has a say: its sensitivity is `sensitivity` plus
/// `change[c]` for each activity c that is done. (Terms on which one activity has a say belong in
/// Effect.) Correlated terms are given as independent ones, the columns of their covariance's root.
struct SharedTerm {
    double half_width = 0.0;
    double sensitivity = 0.0;
    std::vector<double> change;  ///< one for each activity
};

/// A row: lower + margin <= value <= upper - margin, the margin coming from the half-widths in
/// force. Unbounded sides are +-infinity.
struct ConstraintRow {
    std::string name;
    double lower = 0.0;
    double upper = 0.0;
    double gap = 0.0;  ///< its middle with nothing done and every bin empty
    double fixed_half_width =
        0.0;  ///< of all that no decision touches; by RSS, the root of squares
    std::vector<Effect> activities;  ///< one for each activity
    std::vector<double> bins;        ///< one for each bin: gained per unit of thickness
    std::vector<SharedTerm> shared;
    std::optional<double> aim;  ///< among solutions of equal cost, its middle is to be near this
    /// The limits bind the middle alone: no half-width is taken off them.
    bool middle_alone = false;
    /// What the row judge asks where `lower` and `upper` bound nothing: limits that a conflict may
    /// name.
    double judged_lower = -kInfinity;
    double judged_upper = kInfinity;
};

/// A choice of what is done and what lies in each bin, the amounts still open.
struct Selection {
    std::vector<bool> done;
    std::vector<std::vector<std::size_t>> stacks;  ///< for each bin, stock indices, ascending
};

/// What makes a kind of solution: the activities that are done and the bins that carry items.
/// Indices, ascending.
struct PlanKind {
    std::vector<std::size_t> activities;
    std::vector<std::size_t> bins;

    [[nodiscard]] bool operator==(const PlanKind&) const = default;
    [[nodiscard]] bool empty() const { return activities.empty() && bins.empty(); }
};
/// What a selection does, whatever its amounts: the activities made and the bins not empty.
[[nodiscard]] PlanKind kind_of(const Selection& selection);
/// Whether all of `part` is in `whole`.
[[nodiscard]] bool includes(const PlanKind& whole, const PlanKind& part);

/// Where a row's middle may lie under one selection.
struct Allowed {
    double lower = 0.0;
    double upper = 0.0;
};

/// Judges a row by other means than margins, by odds for instance: with the selection settled only
/// the middle still moves, so that the row asks for an interval (empty: lower > upper). Must be
/// pure, and nowhere wider than the margins of `Problem::judge` and `inflation` allow: these still
/// bound the search. (By odds: RSS with an inflation that is surely not too much, or 0.) Stacks
/// alike in thickness, count, price and sum of (squared) half-widths are taken to be judged alike.
using RowJudge = std::function<Allowed(std::size_t row, const Selection& selection)>;

/// Has the last word on a selection with its amounts: false rejects it. A search in which a
/// selection was rejected that might have passed with other amounts is not `proven`.
using Acceptance =
    std::function<bool(const Selection& selection, const std::vector<double>& amounts)>;

struct Problem {
    std::vector<Activity> activities;
    std::vector<StockItem> stock;
    std::vector<Bin> bins;
    std::vector<ConstraintRow> rows;
    /// For each row the first whose limits are one with its own, so that they are kept, left out
    /// and made to give together where no solution exists; empty: every row's are its own.
    std::vector<std::size_t> limits_of;
    MarginRule judge = MarginRule::worst_case;
    double inflation = 1.0;  ///< of the RSS margin, >= 0
    RowJudge row_judge;      ///< optional
    Acceptance verdict;      ///< optional
};

/// The first row whose limits are one with those of `row`; itself where there is none before it.
[[nodiscard]] inline std::size_t limits_of(const Problem& problem, std::size_t row) {
    return problem.limits_of.empty() ? row : problem.limits_of[row];
}

/// What is wrong with a problem, one sentence a fault; empty when it can be solved. Faults: sizes
/// of vectors that do not match, indices out of range, negative costs, half-widths or counts,
/// limits the wrong way round, numbers that are not finite where they must be.
[[nodiscard]] std::vector<std::string> faults(const Problem& problem);

}  // namespace trialfit::numerics
