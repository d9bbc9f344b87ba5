// SPDX-License-Identifier: MIT
#pragma once

#include <cstddef>
#include <vector>

#include <trialfit/numerics/linear/simplex.hpp>
#include <trialfit/numerics/planner/hull.hpp>
#include <trialfit/numerics/planner/node.hpp>
#include <trialfit/numerics/planner/search_model.hpp>

namespace trialfit::numerics {

/// What a node's linear program says.
struct RelaxationResult {
    Simplex::Outcome outcome = Simplex::Outcome::infeasible;
    bool struck_out = false;  ///< something open in the node was shown not to be worth keeping
};

/// The linear relaxation of a node. An activity may be made by halves; a bin's (thickness, value)
/// may lie anywhere above the lower hull of its open points, its spread above a line under theirs;
/// a margin by RSS, concave in the units, is replaced by its chord over the units the node leaves
/// open.
class Relaxation {
public:
    /// `most_cost`: of a plan, under no goal.
    Relaxation(const SearchModel& model, const Goal& goal, const std::vector<PlanKind>& excluded,
               double most_cost);

    /// Solves the node's program, raises its bound and strikes out what would take the value above
    /// `cutoff`.
    [[nodiscard]] RelaxationResult read(SearchNode& node, double cutoff);
    /// Solves the program with one activity settled, the node left as it is: its value, or
    /// infinity.
    [[nodiscard]] double probe(const SearchNode& node, std::size_t activity, ActivityState state,
                               double cutoff, std::size_t iterations) const;

    /// Of the program last read: a bin's thickness, an activity's share (0 to 1).
    [[nodiscard]] double thickness(const SearchNode& node, std::size_t bin) const;
    [[nodiscard]] double share(const SearchNode& node, std::size_t activity) const {
        return node.program.value(activity);
    }
    /// Worth of a point under the goal; of the hull, of the program last read, at its thickness.
    [[nodiscard]] double value(std::size_t bin, std::size_t point) const {
        return values_[bin][point];
    }
    [[nodiscard]] double hull_value(const SearchNode& node, std::size_t bin) const;
    /// The spread that the program takes a bin's stack to have.
    [[nodiscard]] double spread(const SearchNode& node, std::size_t bin) const {
        return least_spread_[bin] + spread_slope_[bin] * thickness(node, bin);
    }

    /// Where the program, its activities all whole, breaks a row because a chord lies under the
    /// margin: the open activity that bends the margin of the worst such row most. Otherwise the
    /// number of activities.
    [[nodiscard]] std::size_t bending_cut(const SearchNode& node) const;

    /// Adds inequalities on the number of activities that the node's solution violates, and makes
    /// its program anew; false when there are none. Only for a node none of whose activities is
    /// settled yet by more than propagation.
    [[nodiscard]] bool add_covers(SearchNode& node);

private:
    static constexpr std::size_t kSegments = Hull::kSegments;
    enum class Sense { at_least, at_most };

    /// sum of columns * x + sum over bins of thickness * t + spread * s, at least or at most
    /// limit.
    struct LinearRow {
        std::vector<double> columns;
        std::vector<double> thickness;
        std::vector<double> spread;
        Sense sense = Sense::at_least;
        double limit = 0.0;
    };
    struct Chord {
        double at_zero = 0.0;
        double slope = 1.0;
    };
    /// What each single choice adds to the Lagrangian.
    struct Prices {
        double bound = 0.0;                      // the Lagrangian itself
        std::vector<double> made;                // of making each activity at its best amount
        std::vector<std::vector<double>> worth;  // of each open point
        std::vector<double> least;               // over a bin's open points
    };

    [[nodiscard]] std::size_t segment(std::size_t bin, std::size_t each) const {
        return 2 * model_.activities + bin * kSegments + each;
    }
    [[nodiscard]] std::size_t loose(std::size_t each) const {
        return segment(model_.bins, 0) + each;
    }
    [[nodiscard]] LinearRow blank(Sense sense, double limit) const;
    void set_values();
    void set_columns();
    void write_gap_rows(std::size_t row, const Chord& chord, double shared);
    void add_links();
    void add_aims();
    void add_excluded(const PlanKind& kind);
    void add_most_cost(double most_cost);
    void add_knapsack(std::size_t row);
    [[nodiscard]] double units_short(std::size_t row) const;
    [[nodiscard]] Simplex make_program() const;
    void fit_hull(const SearchNode& node, std::size_t bin);
    void bound_rows(Simplex& program);
    void fit_margins(SearchNode& node);
    double apply(SearchNode& node);
    [[nodiscard]] double row_shift(const LinearRow& row) const;
    [[nodiscard]] std::vector<double> multipliers(const SearchNode& node) const;
    [[nodiscard]] Prices price(const SearchNode& node) const;
    void price_bins(const SearchNode& node, const std::vector<double>& by, Prices& prices) const;
    [[nodiscard]] bool price_out(SearchNode& node, double cutoff) const;

    const SearchModel& model_;
    Goal goal_;
    std::vector<double> costs_;     // of the columns, segments aside
    std::vector<double> greatest_;  // upper bounds of the columns, segments aside
    std::vector<LinearRow> rows_;   // gap rows first: lower and upper side of each in turn
    std::vector<double> reach_;     // of each row: greatest absolute value of its left side
    std::vector<std::vector<double>> values_;
    std::vector<double> spread_slope_;
    std::vector<Hull> hulls_;           // of the bins' values, at the node last read
    std::vector<double> least_spread_;  // of the spreads less the line's slope times thickness
    bool margins_vary_ = false;
};

}  // namespace trialfit::numerics
