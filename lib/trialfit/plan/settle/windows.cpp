// SPDX-License-Identifier: MIT
#include <trialfit/plan/search/plan.hpp>
#include <trialfit/plan/search/tolerances.hpp>

#include <algorithm>
#include <optional>
#include <stdexcept>
#include <utility>

#include <trialfit/plan/search/model.hpp>
#include <trialfit/plan/settle/settle.hpp>
#include <trialfit/plan/settle/simplex.hpp>

namespace trialfit::plan {

namespace {

constexpr double kSame = 1e-9;
// A plan touches its limits to rounding.
constexpr double kTouching = 1e-7;
constexpr std::size_t kMostWindowIterations = 5000;

/// The box of depths: its ends are the columns of a linear program, least and greatest depth of
/// each cut made, then the width that is being pushed up, then for each cut how far its window lies
/// off the plan's own depth.
class Box {
public:
    Box(const Problem& problem, const Plan& plan, const std::vector<double>& half_widths,
        Clock& clock)
        : problem_(problem), plan_(plan), half_widths_(half_widths), clock_(clock) {
        for (std::size_t c = 0; c < problem.cuts.size(); ++c) {
            if (plan.selection.cut[c]) made_.push_back(c);
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
        std::vector<Window> windows(problem_.cuts.size());
        if (!reach_what_can_be_hit()) {
            for (const std::size_t c : made_)
                windows[c] = {.least_depth = plan_.depths[c],
                              .greatest_depth = plan_.depths[c],
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
    // as near to the plan's own depths as such windows can lie.
    bool reach_what_can_be_hit() {
        const std::optional<Simplex> hit = solve({.share = true});
        if (!hit) return false;
        share_ = std::max(hit->value(width_) - kSame, 0.0);
        const std::optional<Simplex> near = solve({.near = true});
        keep(near ? *near : *hit);
        for (std::size_t i = 0; i < made_.size(); ++i) {
            const double depth = plan_.depths[made_[i]];
            off_[i] = std::max({best_[2 * i] - depth, depth - best_[2 * i + 1], 0.0});
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
        const Model model(problem_);
        const std::vector<double> none(problem_.cuts.size(), 0.0);
        for (std::size_t r = 0; r < problem_.rows.size(); ++r) {
            const double at_zero = middle_of(problem_, r, plan_.selection, none);
            const double now = middle_of(problem_, r, plan_.selection, plan_.depths);
            const Allowed allowed = model.allowed(r, plan_.selection);
            std::vector<double> least(columns_, 0.0);
            std::vector<double> most(columns_, 0.0);
            bool moves = false;
            for (std::size_t i = 0; i < made_.size(); ++i) {
                const double by = model.per_depth(r, made_[i]);
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

    // end * way + off >= depth * way
    void add_off_plan(std::size_t i, std::size_t end, double way) {
        std::vector<double> row(columns_, 0.0);
        row[end] = way;
        row[width_ + 1 + i] = 1.0;
        matrix_.insert(matrix_.end(), row.begin(), row.end());
    }

    struct Aim {
        bool share = false;  ///< the share of what lathe and gauge need is pushed up, to 1
        bool near = false;   ///< the windows are drawn to the plan's depths
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
            const Cut& cut = problem_.cuts[made_[i]];
            const double depth = plan_.depths[made_[i]];
            const double most = std::max(cut.at_most, cut.at_least);
            const double least = std::min(cut.at_least, depth);
            program.set_bounds(2 * i, least, widening ? std::min(depth + off_[i], most) : most);
            program.set_bounds(2 * i + 1, widening ? std::max(depth - off_[i], least) : least,
                               most);
            program.set_bounds(width_ + 1 + i, 0.0, kFar);
            if (aim.near)
                program.set_cost(width_ + 1 + i, std::max(cut.cost + cut.per_mm, kLeastWeight));
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
            const double depth = plan_.depths[made_[i]];
            program.set_bounds(row++, std::max(floor, 0.0), kFar);
            program.set_bounds(row++, pushed ? 0.0 : -3.0 * kFar, 3.0 * kFar);
            program.set_bounds(row++, aim.share ? 0.0 : -3.0 * kFar, 3.0 * kFar);
            program.set_bounds(row++, aim.near ? -depth : -3.0 * kFar, 3.0 * kFar);
            program.set_bounds(row++, aim.near ? depth : -3.0 * kFar, 3.0 * kFar);
        }
    }

    static constexpr double kLeastWeight = 1e-3;

    const Problem& problem_;
    const Plan& plan_;
    const std::vector<double>& half_widths_;
    Clock& clock_;
    std::vector<std::size_t> made_;
    std::size_t width_ = 0;
    std::size_t columns_ = 0;
    std::vector<double> matrix_;
    std::vector<double> lower_;
    std::vector<double> upper_;
    double share_ = 0.0;         // of what lathe and gauge need
    std::vector<double> off_;    // the window from the plan's depth
    std::vector<double> floor_;  // least width
    std::vector<double> best_;   // ends found last
};

}  // namespace

std::vector<Window> windows(const Problem& problem, const Plan& plan,
                            const std::vector<double>& half_widths) {
    Clock endless({});
    return windows(problem, plan, half_widths, endless);
}

std::vector<Window> windows(const Problem& problem, const Plan& plan,
                            const std::vector<double>& half_widths, Clock& clock) {
    if (half_widths.size() != problem.cuts.size() || plan.depths.size() != problem.cuts.size() ||
        plan.selection.cut.size() != problem.cuts.size())
        throw std::invalid_argument("windows: one depth and one half-width for each cut");
    return Box(problem, plan, half_widths, clock).run();
}

}  // namespace trialfit::plan
