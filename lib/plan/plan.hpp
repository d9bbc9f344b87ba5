// SPDX-License-Identifier: MIT
#pragma once

#include <atomic>
#include <cstddef>
#include <functional>
#include <optional>
#include <string>
#include <vector>

#include <trialfit/plan/problem.hpp>

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
    double cost = 0.0;
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

struct Progress {
    std::size_t nodes = 0;
    double seconds = 0.0;
    std::optional<double> best_cost;
    double bound = 0.0;  ///< no plan is cheaper
};

/// How a search is watched and stopped; every member may be left out. The library never reads a
/// clock for anything but this.
struct Watch {
    const std::atomic<bool>* stop = nullptr;
    std::function<bool(const Progress&)> progress;  ///< false stops the search
    std::optional<double> seconds;                  ///< for the whole call
    std::optional<std::size_t> nodes;  ///< for each search; unlike seconds, the same everywhere
};

struct Answer {
    std::vector<Plan> plans;           ///< cheapest first; each cuts other faces than all before it
    bool proven = false;               ///< of every plan shown; with no plan, that none exists
    double bound = 0.0;                ///< no plan is cheaper than this
    std::optional<Conflict> conflict;  ///< where it is proven that no plan exists
    std::size_t nodes = 0;
    double seconds = 0.0;
};

/// The proven cheapest plan and, up to `top` in all, the next-cheapest ones that cut other faces: a
/// plan whose cuts include all cuts of a cheaper one is not shown. Cost = sum over cuts made of
/// cost + per_mm * depth, + the prices of the shims fitted. Ties (costs within 1e-9): least sum of
/// distances to the aims, then fewest shims (within 1e-7 of distance each), then earlier cuts and
/// stock in file order. Exact branch and bound; deterministic.
/// Throws std::invalid_argument with faults(problem) where there are any, or if top is 0.
[[nodiscard]] Answer solve(const Problem& problem, std::size_t top = 3, const Watch& watch = {});
/// The same without looking for a conflict: why there is no plan stays open.
[[nodiscard]] Answer solve_only(const Problem& problem, std::size_t top, const Watch& watch);
/// Why a problem for which solve_only proved that there is no plan has none.
[[nodiscard]] Conflict conflict_of(const Problem& problem, const Watch& watch);

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

}  // namespace trialfit::plan
