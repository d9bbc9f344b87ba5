// SPDX-License-Identifier: MIT
#include <trialfit/plan/plan.hpp>
#include <trialfit/plan/tolerances.hpp>

#include <algorithm>
#include <optional>
#include <stdexcept>
#include <utility>

#include <trialfit/plan/model.hpp>
#include <trialfit/plan/settle.hpp>
#include <trialfit/plan/simplex.hpp>

namespace trialfit::plan {

namespace {

constexpr double kSame = 1e-9;
constexpr std::size_t kMostWindowIterations = 5000;

/// The largest box of aimed-at depths around a plan's: its ends are the columns of a linear
/// program, least and greatest depth of each cut made, then the width that is being pushed up.
class Box {
public:
    Box(const Problem& problem, const Plan& plan, const std::vector<double>& holds)
        : problem_(problem), plan_(plan), holds_(holds) {
        for (std::size_t c = 0; c < problem.cuts.size(); ++c) {
            if (plan.selection.cut[c]) made_.push_back(c);
        }
        width_ = 2 * made_.size();
        add_demands();
        for (std::size_t i = 0; i < made_.size(); ++i) {
            std::vector<double> wider(width_ + 1, 0.0);
            wider[2 * i + 1] = 1.0;
            wider[2 * i] = -1.0;
            matrix_.insert(matrix_.end(), wider.begin(), wider.end());
            wider[width_] = -1.0;
            matrix_.insert(matrix_.end(), wider.begin(), wider.end());
        }
    }

    // The narrowest is widened as far as it goes, what cannot be widened further is left as it is,
    // and so on with the rest.
    std::vector<Window> run() {
        std::vector<double> settled(made_.size(), -1.0);
        std::vector<Window> windows(problem_.cuts.size());
        std::optional<Simplex> program = solve(settled, made_.size());
        if (!program) return at_the_plan();
        for (std::size_t round = 0; round < made_.size(); ++round) {
            const double width = program->value(width_);
            std::size_t tightest = made_.size();
            double least = kInfinity;
            for (std::size_t i = 0; i < made_.size(); ++i) {
                if (settled[i] >= 0.0) continue;
                const double most = widest(settled, i, width);
                if (most <= width + kSame) settled[i] = width;
                if (most < least) {
                    least = most;
                    tightest = i;
                }
            }
            if (tightest == made_.size()) break;
            settled[tightest] = width;
            // What was settled can be had, if only just; rounding must not take it all away.
            std::optional<Simplex> next = solve(settled, made_.size());
            if (!next) break;
            program = std::move(next);
        }
        for (std::size_t i = 0; i < made_.size(); ++i) {
            const double hold = holds_[made_[i]];
            const double depth = plan_.depths[made_[i]];
            windows[made_[i]] = {std::min(program->value(2 * i), depth) - hold,
                                 std::max(program->value(2 * i + 1), depth) + hold};
        }
        return windows;
    }

private:
    [[nodiscard]] std::vector<Window> at_the_plan() const {
        std::vector<Window> windows(problem_.cuts.size());
        for (const std::size_t c : made_)
            windows[c] = {plan_.depths[c] - holds_[c], plan_.depths[c] + holds_[c]};
        return windows;
    }

    void add_demands() {
        const Model model(problem_);
        const std::vector<double> none(problem_.cuts.size(), 0.0);
        for (std::size_t r = 0; r < problem_.rows.size(); ++r) {
            const double at_zero = middle_of(problem_, r, plan_.selection, none);
            const double now = middle_of(problem_, r, plan_.selection, plan_.depths);
            const Allowed allowed = model.allowed(r, plan_.selection);
            std::vector<double> least(width_ + 1, 0.0);
            std::vector<double> most(width_ + 1, 0.0);
            for (std::size_t i = 0; i < made_.size(); ++i) {
                const double by = model.per_depth(r, made_[i]);
                least[2 * i + (by > 0.0 ? 0 : 1)] = by;
                most[2 * i + (by > 0.0 ? 1 : 0)] = by;
            }
            matrix_.insert(matrix_.end(), least.begin(), least.end());
            matrix_.insert(matrix_.end(), most.begin(), most.end());
            // The plan may touch its limits to rounding, and lies in its own box.
            lower_.push_back(std::min(allowed.lower, now) - at_zero);
            upper_.push_back(std::max(allowed.upper, now) - at_zero);
        }
    }

    // Widths settled are kept; the width column is pushed up for `only`, or for all the others.
    [[nodiscard]] std::optional<Simplex> solve(const std::vector<double>& settled, std::size_t only,
                                               double at_least = 0.0) const {
        const std::size_t columns = width_ + 1;
        Simplex program(matrix_.size() / columns, columns, matrix_);
        double widest_hold = 0.0;
        for (std::size_t i = 0; i < made_.size(); ++i) {
            const Cut& cut = problem_.cuts[made_[i]];
            const double depth = plan_.depths[made_[i]];
            program.set_bounds(2 * i, std::min(cut.at_least, depth), depth);
            program.set_bounds(2 * i + 1, depth, std::max(cut.at_most, depth));
            widest_hold = std::max(widest_hold, holds_[made_[i]]);
        }
        program.set_bounds(width_, 0.0, kFar);
        program.set_cost(width_, -1.0);
        std::size_t row = columns;
        for (std::size_t r = 0; r < lower_.size(); ++r) {
            program.set_bounds(row++, std::max(lower_[r], -kFar), kFar);
            program.set_bounds(row++, -kFar, std::min(upper_[r], kFar));
        }
        for (std::size_t i = 0; i < made_.size(); ++i) {
            const double held = 2.0 * holds_[made_[i]];
            const double floor = settled[i] >= 0.0 ? settled[i] : at_least;
            const bool pushed = only == made_.size() ? settled[i] < 0.0 : only == i;
            program.set_bounds(row++, std::max(floor - held - 1e-12, 0.0), kFar);
            program.set_bounds(row++, pushed ? -held : -3.0 * kFar, 3.0 * kFar);
        }
        if (program.solve(kInfinity, kMostWindowIterations) != Simplex::Outcome::optimal)
            return std::nullopt;
        return program;
    }

    [[nodiscard]] double widest(const std::vector<double>& settled, std::size_t cut,
                                double at_least) const {
        const std::optional<Simplex> program = solve(settled, cut, at_least);
        return program ? program->value(width_) : at_least;
    }

    const Problem& problem_;
    const Plan& plan_;
    const std::vector<double>& holds_;
    std::vector<std::size_t> made_;
    std::size_t width_ = 0;
    std::vector<double> matrix_;
    std::vector<double> lower_;
    std::vector<double> upper_;
};

}  // namespace

std::vector<Window> windows(const Problem& problem, const Plan& plan,
                            const std::vector<double>& holds) {
    if (holds.size() != problem.cuts.size() || plan.depths.size() != problem.cuts.size() ||
        plan.selection.cut.size() != problem.cuts.size())
        throw std::invalid_argument("windows: one depth and one hold are needed for each cut");
    return Box(problem, plan, holds).run();
}

}  // namespace trialfit::plan
