// SPDX-License-Identifier: MIT
#include <trialfit/numerics/planner/solve.hpp>
#include <trialfit/numerics/planner/tolerances.hpp>

#include <algorithm>
#include <optional>
#include <stdexcept>
#include <utility>

#include <trialfit/numerics/linear/simplex.hpp>
#include <trialfit/numerics/planner/search_model.hpp>
#include <trialfit/numerics/planner/solve_amounts.hpp>

namespace trialfit::numerics {

namespace {

constexpr double kSame = 1e-9;
// A plan touches its limits to rounding.
constexpr double kTouching = 1e-7;
constexpr std::size_t kMostWindowIterations = 5000;

/// The box of amounts: its ends are the columns of a linear program, least and greatest amount of
/// each activity made, then the width that is being pushed up, then for each activity how far its
/// window lies off the plan's own amount.
class Box {
public:
    Box(const Problem& problem, const Solution& plan, const std::vector<double>& half_widths,
        Deadline& clock)
        : problem_(problem), plan_(plan), half_widths_(half_widths), clock_(clock) {
        for (std::size_t c = 0; c < problem.activities.size(); ++c) {
            if (plan.selection.done[c]) made_.push_back(c);
        }
        width_ = 2 * made_.size();
        columns_ = width_ + 1 + made_.size();
        off_.assign(made_.size(), 0.0);
        floor_.assign(made_.size(), 0.0);
        add_demands();
        for (std::size_t i = 0; i < made_.size(); ++i) {
            std::vector<double> row(columns_, 0.0);
            row[2 * i + 1] = 1.0;
            row[2 * i] = -1.0;
            matrix_.insert(matrix_.end(), row.begin(), row.end());
            row[width_] = -1.0;
            matrix_.insert(matrix_.end(), row.begin(), row.end());
            row[width_] = -2.0 * half_widths_[made_[i]];
            matrix_.insert(matrix_.end(), row.begin(), row.end());
            add_off_plan(i, 2 * i, -1.0);
            add_off_plan(i, 2 * i + 1, 1.0);
        }
    }

    std::vector<Window> run() {
        std::vector<Window> windows(problem_.activities.size());
        if (!reach_what_can_be_hit()) {
            for (const std::size_t c : made_)
                windows[c] = {.least_amount = plan_.amounts[c],
                              .greatest_amount = plan_.amounts[c],
                              .none = true};
            return windows;
        }
        widen();
        for (std::size_t i = 0; i < made_.size(); ++i)
            windows[made_[i]] = {best_[2 * i], best_[2 * i + 1]};
        return windows;
    }

private:
    // First every window as wide as the lathe and the gauge need, as far as that can be had; then
    // as near to the plan's own amounts as such windows can lie.
    bool reach_what_can_be_hit() {
        const std::optional<Simplex> hit = solve({.share = true});
        if (!hit) return false;
        share_ = std::max(hit->value(width_) - kSame, 0.0);
        const std::optional<Simplex> near = solve({.near = true});
        keep(near ? *near : *hit);
        for (std::size_t i = 0; i < made_.size(); ++i) {
            const double amount = plan_.amounts[made_[i]];
            off_[i] = std::max({best_[2 * i] - amount, amount - best_[2 * i + 1], 0.0});
            floor_[i] = std::max(2.0 * half_widths_[made_[i]] * share_ - kSame, 0.0);
        }
        return true;
    }

    // Then the narrowest is widened as far as it goes, what cannot be widened further is left as it
    // is, and so on with the rest; no window goes any further off the plan.
    void widen() {
        std::vector<double> settled(made_.size(), -1.0);
        std::optional<Simplex> program = solve({.settled = &settled});
        if (!program) return;
        keep(*program);
        for (std::size_t round = 0; round < made_.size() && !clock_.stopped(); ++round) {
            const double width = program->value(width_);
            std::size_t tightest = made_.size();
            double least = kInfinity;
            for (std::size_t i = 0; i < made_.size(); ++i) {
                if (settled[i] >= 0.0) continue;
                if (clock_.stopped()) return;
                const auto alone = solve({.settled = &settled, .only = i, .at_least = width});
                const double most = alone ? alone->value(width_) : width;
                if (most <= width + kSame) settled[i] = width;
                if (most < least) {
                    least = most;
                    tightest = i;
                }
            }
            if (tightest == made_.size()) break;
            settled[tightest] = width;
            // What was settled can be had, if only just; rounding must not take it all away.
            std::optional<Simplex> next = solve({.settled = &settled});
            if (!next) break;
            program = std::move(next);
            keep(*program);
        }
    }

    void keep(const Simplex& program) {
        best_.clear();
        for (std::size_t i = 0; i < width_; ++i)
            best_.push_back(program.value(i));
    }

    void add_demands() {
        const SearchModel model(problem_);
        const std::vector<double> none(problem_.activities.size(), 0.0);
        for (std::size_t r = 0; r < problem_.rows.size(); ++r) {
            const double at_zero = middle_of(problem_, r, plan_.selection, none);
            const double now = middle_of(problem_, r, plan_.selection, plan_.amounts);
            const Allowed allowed = model.allowed(r, plan_.selection);
            std::vector<double> least(columns_, 0.0);
            std::vector<double> most(columns_, 0.0);
            bool moves = false;
            for (std::size_t i = 0; i < made_.size(); ++i) {
                const double by = model.per_amount(r, made_[i]);
                least[2 * i + (by > 0.0 ? 0 : 1)] = by;
                most[2 * i + (by > 0.0 ? 1 : 0)] = by;
                moves = moves || by != 0.0;
            }
            if (!moves) continue;
            matrix_.insert(matrix_.end(), least.begin(), least.end());
            matrix_.insert(matrix_.end(), most.begin(), most.end());
            const bool touches_lower = std::abs(now - allowed.lower) < kTouching;
            const bool touches_upper = std::abs(now - allowed.upper) < kTouching;
            lower_.push_back((touches_lower ? std::min(allowed.lower, now) : allowed.lower) -
                             at_zero);
            upper_.push_back((touches_upper ? std::max(allowed.upper, now) : allowed.upper) -
                             at_zero);
        }
    }

    // end * way + off >= amount * way
    void add_off_plan(std::size_t i, std::size_t end, double way) {
        std::vector<double> row(columns_, 0.0);
        row[end] = way;
        row[width_ + 1 + i] = 1.0;
        matrix_.insert(matrix_.end(), row.begin(), row.end());
    }

    struct Aim {
        bool share = false;  ///< the share of what lathe and gauge need is pushed up, to 1
        bool near = false;   ///< the windows are drawn to the plan's amounts
        /// Widths that are settled (< 0: not yet) are kept; the width column is pushed up for
        /// `only`, or for all the others.
        const std::vector<double>* settled = nullptr;
        std::optional<std::size_t> only{};
        double at_least = 0.0;
    };

    [[nodiscard]] std::optional<Simplex> solve(const Aim& aim) const {
        Simplex program(matrix_.size() / columns_, columns_, matrix_);
        const bool widening = aim.settled != nullptr;
        for (std::size_t i = 0; i < made_.size(); ++i) {
            const Activity& activity = problem_.activities[made_[i]];
            const double amount = plan_.amounts[made_[i]];
            const double most = std::max(activity.at_most, activity.at_least);
            const double least = std::min(activity.at_least, amount);
            program.set_bounds(2 * i, least, widening ? std::min(amount + off_[i], most) : most);
            program.set_bounds(2 * i + 1, widening ? std::max(amount - off_[i], least) : least,
                               most);
            program.set_bounds(width_ + 1 + i, 0.0, kFar);
            if (aim.near)
                program.set_cost(width_ + 1 + i,
                                 std::max(activity.cost + activity.per_amount, kLeastWeight));
        }
        program.set_bounds(width_, 0.0, aim.share ? 1.0 : kFar);
        if (!aim.near) program.set_cost(width_, -1.0);
        set_rows(program, aim);
        if (program.solve(kInfinity, kMostWindowIterations) != Simplex::Outcome::optimal)
            return std::nullopt;
        return program;
    }

    void set_rows(Simplex& program, const Aim& aim) const {
        std::size_t row = columns_;
        for (std::size_t r = 0; r < lower_.size(); ++r) {
            program.set_bounds(row++, std::max(lower_[r], -kFar), kFar);
            program.set_bounds(row++, -kFar, std::min(upper_[r], kFar));
        }
        for (std::size_t i = 0; i < made_.size(); ++i) {
            double floor = floor_[i];
            bool pushed = false;
            if (aim.settled != nullptr) {
                const double kept = (*aim.settled)[i];
                floor = std::max(floor, (kept >= 0.0 ? kept : aim.at_least) - 1e-12);
                pushed = aim.only ? *aim.only == i : kept < 0.0;
            }
            if (aim.near) floor = std::max(2.0 * half_widths_[made_[i]] * share_ - kSame, 0.0);
            const double amount = plan_.amounts[made_[i]];
            program.set_bounds(row++, std::max(floor, 0.0), kFar);
            program.set_bounds(row++, pushed ? 0.0 : -3.0 * kFar, 3.0 * kFar);
            program.set_bounds(row++, aim.share ? 0.0 : -3.0 * kFar, 3.0 * kFar);
            program.set_bounds(row++, aim.near ? -amount : -3.0 * kFar, 3.0 * kFar);
            program.set_bounds(row++, aim.near ? amount : -3.0 * kFar, 3.0 * kFar);
        }
    }

    static constexpr double kLeastWeight = 1e-3;

    const Problem& problem_;
    const Solution& plan_;
    const std::vector<double>& half_widths_;
    Deadline& clock_;
    std::vector<std::size_t> made_;
    std::size_t width_ = 0;
    std::size_t columns_ = 0;
    std::vector<double> matrix_;
    std::vector<double> lower_;
    std::vector<double> upper_;
    double share_ = 0.0;         // of what lathe and gauge need
    std::vector<double> off_;    // the window from the plan's amount
    std::vector<double> floor_;  // least width
    std::vector<double> best_;   // ends found last
};

}  // namespace

std::vector<Window> windows(const Problem& problem, const Solution& plan,
                            const std::vector<double>& half_widths) {
    Deadline endless({});
    return windows(problem, plan, half_widths, endless);
}

std::vector<Window> windows(const Problem& problem, const Solution& plan,
                            const std::vector<double>& half_widths, Deadline& clock) {
    if (half_widths.size() != problem.activities.size() ||
        plan.amounts.size() != problem.activities.size() ||
        plan.selection.done.size() != problem.activities.size())
        throw std::invalid_argument("windows: one amount and one half-width for each activity");
    return Box(problem, plan, half_widths, clock).run();
}

}  // namespace trialfit::numerics
