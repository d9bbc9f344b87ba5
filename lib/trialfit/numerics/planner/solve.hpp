// SPDX-License-Identifier: MIT
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include <trialfit/numerics/planner/deadline.hpp>
#include <trialfit/numerics/planner/problem.hpp>

namespace trialfit::numerics {

/// One row under a plan. Lengths; the slacks are >= 0 (to rounding) where the row holds.
struct RowOutcome {
    double middle = 0.0;       ///< of the gap
    double margin = 0.0;       ///< by Problem::judge
    double above_lower = 0.0;  ///< middle - margin - lower
    double below_upper = 0.0;  ///< upper - margin - middle
};

/// The range of amounts of one activity as it is read. Every combination of readings inside all
/// windows passes, each reading with the half-width that it is judged with.
struct Window {
    double least_amount = 0.0;
    double greatest_amount = 0.0;
    bool none = false;  ///< no reading is sure to pass
};

struct Solution {
    double cost = 0.0;  ///< the pieces of bins that are set to an aim aside
    Selection selection;
    std::vector<double> amounts;  ///< one for each activity, 0 where not done
    std::vector<RowOutcome> rows;
    double aim_distance = 0.0;  ///< sum over rows with an aim of |middle - aim|
    int items = 0;              ///< pieces fitted over all bins
    bool proven = false;        ///< no plan, of those this one competes with, is cheaper
    /// Nor is any of the same cost nearer to the aims, and so on: false where that search was
    /// cut short.
    bool untied = false;
};

enum class LimitKind {
    row_lower,        ///< index: row, the first of those whose limits are one
    row_upper,        ///< index: row, likewise
    activity_amount,  ///< index: activity; its at_most, that is the `keep`
    bin_stock,        ///< index: bin; its stock and its greatest count
};

/// A demand or limit that takes part in a conflict.
struct ConflictLimit {
    LimitKind kind = LimitKind::row_lower;
    std::size_t index = 0;

    [[nodiscard]] bool operator==(const ConflictLimit&) const = default;
};

/// Why no plan exists.
struct Conflict {
    /// These cannot all hold; leave out any one and the rest can.
    std::vector<ConflictLimit> members;
    bool irreducible = false;  ///< false where the search was stopped before it had tried them all

    /// The one limit that has to give least, and by how much (a length: lower the demand, allow
    /// more than `at_most`, or add so much height to the bin's best stack). None where no single
    /// limit is enough.
    std::optional<ConflictLimit> relaxed;
    double relaxed_by = 0.0;
    bool sought = true;  ///< false where the search for it was stopped
    /// What then holds all else, the amount that gives included. Empty where none is enough.
    Selection relaxed_selection;
    std::vector<double> relaxed_amounts;
};

struct SolveResult {
    std::vector<Solution> plans;  ///< cheapest first, each of another kind than all before it
    /// Kinds of plan that cost as much as the first and come as near to the aims, itself counted.
    std::size_t ties = 0;
    bool more_ties = false;            ///< there may be more of them
    bool proven = false;               ///< of every plan shown; with no plan, that none exists
    double bound = 0.0;                ///< no plan is cheaper than this
    std::optional<Conflict> conflict;  ///< where it is proven that no plan exists
    std::size_t nodes = 0;
    double seconds = 0.0;
};

/// The proven cheapest plan and, up to `top` in all, the next-cheapest ones of other kinds: which
/// activities are done and which bins carry items make the kind, and one that only adds to the kind
/// of a cheaper plan is not shown. Cost = sum over activities made of cost + per_amount * amount, +
/// the prices of the items fitted, those of bins that are set to an aim aside. Ties (costs within
/// 1e-9): least sum of distances to the aims, then fewest items bought for bins that are set to an
/// aim (within 1e-6 of distance each), then fewest items (1e-7), then fewest bins that carry any
/// (1e-8), then earlier activities and stock in file order. Of a plan's kind, one that only leaves
/// items of such bins away, and so comes less near to the aims, is none of its own. Exact branch
/// and bound; deterministic. Throws std::invalid_argument with faults(problem) where there are any,
/// or if top is 0.
[[nodiscard]] SolveResult solve(const Problem& problem, std::size_t top = 3,
                                const SearchControl& watch = {});
/// The same without looking for a conflict: why there is no plan stays open.
[[nodiscard]] SolveResult solve_only(const Problem& problem, std::size_t top, Deadline& clock);
/// Why a problem for which solve_only proved that there is no plan has none.
[[nodiscard]] Conflict conflict_of(const Problem& problem, Deadline& clock);

/// The outcome of every row for a selection and amounts (one for each activity, used where it is
/// done).
[[nodiscard]] std::vector<RowOutcome> outcomes(const Problem& problem, const Selection& selection,
                                               const std::vector<double>& amounts);

/// One window for each activity made in `plan`, in activity order (the rest get {0, 0});
/// `half_widths` is what each activity is judged with once it is read, and what the problem's
/// margins are made with. A window is as wide as twice that where it can be had, so that it can be
/// hit; drawn as near to the plan's own amounts as such windows can lie (two activities that share
/// what must come off cannot both have room about the least work); and from there the narrowest is
/// as wide as it can be, then the next narrowest, and so on, none going further off the plan.
/// `none` where not even one combination of readings is sure to pass. In the worst case, by RSS or
/// odds alike, any combination of readings in the windows passes. Throws std::invalid_argument
/// where vectors do not match the problem's activities.
[[nodiscard]] std::vector<Window> windows(const Problem& problem, const Solution& plan,
                                          const std::vector<double>& half_widths);
/// The same by a clock: once it is over, windows are no longer widened, only sure to pass.
[[nodiscard]] std::vector<Window> windows(const Problem& problem, const Solution& plan,
                                          const std::vector<double>& half_widths, Deadline& clock);

}  // namespace trialfit::numerics
