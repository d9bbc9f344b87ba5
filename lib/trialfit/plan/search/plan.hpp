// SPDX-License-Identifier: MIT
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include <trialfit/plan/search/clock.hpp>
#include <trialfit/plan/search/problem.hpp>

namespace trialfit::plan {

/// One row under a plan. Lengths; the slacks are >= 0 (to rounding) where the row holds.
struct RowOutcome {
    double middle = 0.0;       ///< of the gap
    double margin = 0.0;       ///< by Problem::judge
    double above_lower = 0.0;  ///< middle - margin - lower
    double below_upper = 0.0;  ///< upper - margin - middle
};

/// The range of depths of one cut as it is read. Every combination of readings inside all windows
/// passes, each reading with the half-width that it is judged with. In sizes: the finish size
/// shrinks as the depth grows.
struct Window {
    double least_depth = 0.0;
    double greatest_depth = 0.0;
    bool none = false;  ///< no reading is sure to pass
};

struct Plan {
    double cost = 0.0;  ///< the pieces of seats that are set to an aim aside
    Selection selection;
    std::vector<double> depths;  ///< one for each cut, 0 where not cut
    std::vector<RowOutcome> rows;
    double aim_distance = 0.0;  ///< sum over rows with an aim of |middle - aim|
    int shims = 0;              ///< pieces fitted over all seats
    bool proven = false;        ///< no plan, of those this one competes with, is cheaper
    /// Nor is any of the same cost nearer to the aims, and so on: false where that search was cut
    /// short.
    bool untied = false;
};

enum class LimitKind {
    row_lower,   ///< index: row
    row_upper,   ///< index: row
    cut_depth,   ///< index: cut; its at_most, that is the `keep`
    seat_stock,  ///< index: seat; its stock and its greatest count
};

/// A demand or limit that takes part in a conflict.
struct Limit {
    LimitKind kind = LimitKind::row_lower;
    std::size_t index = 0;

    [[nodiscard]] bool operator==(const Limit&) const = default;
};

/// Why no plan exists.
struct Conflict {
    /// These cannot all hold; leave out any one and the rest can.
    std::vector<Limit> members;
    bool irreducible = false;  ///< false where the search was stopped before it had tried them all

    /// The one limit that has to give least, and by how much (a length: lower the demand, cut
    /// deeper than `at_most`, or add so much height to the seat's best stack). None where no single
    /// limit is enough.
    std::optional<Limit> relaxed;
    double relaxed_by = 0.0;
};

struct Answer {
    std::vector<Plan> plans;  ///< cheapest first, each of another kind than all before it
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
/// faces are cut and which seats carry shims make the kind, and one that only adds to the kind of a
/// cheaper plan is not shown. Cost = sum over cuts made of cost + per_mm * depth, + the prices of
/// the shims fitted, those of seats that are set to an aim aside. Ties (costs within 1e-9): least
/// sum of distances to the aims, then fewest shims bought for seats that are set to an aim (within
/// 1e-6 of distance each), then fewest shims (1e-7), then earlier cuts and stock in file order. Of
/// a plan's kind, one that only leaves shims of such seats away, and so comes less near to the
/// aims, is none of its own. Exact branch and bound; deterministic.
/// Throws std::invalid_argument with faults(problem) where there are any, or if top is 0.
[[nodiscard]] Answer solve(const Problem& problem, std::size_t top = 3, const Watch& watch = {});
/// The same without looking for a conflict: why there is no plan stays open.
[[nodiscard]] Answer solve_only(const Problem& problem, std::size_t top, Clock& clock);
/// Why a problem for which solve_only proved that there is no plan has none.
[[nodiscard]] Conflict conflict_of(const Problem& problem, Clock& clock);

/// The outcome of every row for a selection and depths (one for each cut, used where it is cut).
[[nodiscard]] std::vector<RowOutcome> outcomes(const Problem& problem, const Selection& selection,
                                               const std::vector<double>& depths);

/// One window for each cut made in `plan`, in cut order (the rest get {0, 0}); `half_widths` is
/// what each cut is judged with once it is read, and what the problem's margins are made with. A
/// window is as wide as twice that where it can be had, so that it can be hit; drawn as near to the
/// plan's own depths as such windows can lie (two cuts that share what must come off cannot both
/// have room about the least work); and from there the narrowest is as wide as it can be, then the
/// next narrowest, and so on, none going further off the plan. `none` where not even one
/// combination of readings is sure to pass. In the worst case, by RSS or odds alike, any
/// combination of readings in the windows passes. Throws std::invalid_argument where vectors do not
/// match the problem's cuts.
[[nodiscard]] std::vector<Window> windows(const Problem& problem, const Plan& plan,
                                          const std::vector<double>& half_widths);
/// The same by a clock: once it is over, windows are no longer widened, only sure to pass.
[[nodiscard]] std::vector<Window> windows(const Problem& problem, const Plan& plan,
                                          const std::vector<double>& half_widths, Clock& clock);

}  // namespace trialfit::plan
