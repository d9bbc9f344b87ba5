// SPDX-License-Identifier: MIT
#include <trialfit/numerics/planner/solve_amounts.hpp>
#include <trialfit/numerics/planner/tolerances.hpp>

#include <algorithm>
#include <cmath>

namespace trialfit::numerics {

namespace {

constexpr std::size_t kMostSettleIterations = 2000;

/// The linear program for the amounts of one selection.
class DepthProgram {
public:
    DepthProgram(const SearchModel& model, const Goal& goal, const Selection& selection)
        : model_(model), goal_(goal), selection_(selection) {
        for (std::size_t c = 0; c < model.activities; ++c) {
            if (selection.done[c]) made_.push_back(c);
        }
        for (const ConstraintRow& row : model.problem->rows) {
            if (goal.aim != 0.0 && row.aim) ++aims_;
        }
        columns_ = made_.size() + model.loosenings.size() + aims_;
    }

    /// False when a row cannot be met whatever the amounts.
    bool lay_out(double most_cost) {
        const std::vector<double> none(model_.activities, 0.0);
        std::size_t aim = columns_ - aims_;
        for (std::size_t r = 0; r < model_.rows; ++r) {
            const ConstraintRow& row = model_.problem->rows[r];
            const double at_zero = middle_of(*model_.problem, r, selection_, none);
            const Allowed allowed = model_.allowed(r, selection_);
            std::vector<double> gains(columns_, 0.0);
            for (std::size_t i = 0; i < made_.size(); ++i)
                gains[i] = model_.per_amount(r, made_[i]);
            for (std::size_t each = 0; each < model_.loosenings.size(); ++each)
                gains[made_.size() + each] = model_.loose_gap(r, each);
            if (!add_demand(r, gains, allowed.lower - at_zero, allowed.upper - at_zero))
                return false;
            if (goal_.aim == 0.0 || !row.aim) continue;
            std::vector<double> away = gains;
            away[aim] = 1.0;
            add(away, *row.aim - at_zero, kFar);
            away[aim++] = -1.0;
            add(away, -kFar, *row.aim - at_zero);
        }
        if (std::isfinite(most_cost)) {
            std::vector<double> costs(columns_, 0.0);
            for (std::size_t i = 0; i < made_.size(); ++i)
                costs[i] = model_.problem->activities[made_[i]].per_amount;
            add(costs, -kFar, most_cost + kSameLength - cost_of(*model_.problem, selection_, none));
        }
        return true;
    }

    [[nodiscard]] std::optional<PricedSelection> solve() const {
        Simplex program(lower_.size(), columns_, matrix_);
        for (std::size_t i = 0; i < made_.size(); ++i) {
            const Activity& activity = model_.problem->activities[made_[i]];
            program.set_bounds(i, activity.at_least, activity.at_most);
            program.set_cost(i, goal_.cost * activity.per_amount);
        }
        for (std::size_t each = 0; each < model_.loosenings.size(); ++each) {
            const std::size_t column = made_.size() + each;
            const std::size_t needs = model_.loose_activity[each];
            const bool may = needs == model_.activities || selection_.done[needs];
            program.set_bounds(column, 0.0, may ? model_.loosenings[each].at_most : 0.0);
            program.set_cost(column, model_.loosenings[each].cost);
        }
        for (std::size_t column = columns_ - aims_; column < columns_; ++column) {
            program.set_bounds(column, 0.0, kFar);
            program.set_cost(column, goal_.aim);
        }
        for (std::size_t i = 0; i < lower_.size(); ++i)
            program.set_bounds(columns_ + i, lower_[i], upper_[i]);
        if (program.solve(kInfinity, kMostSettleIterations) != Simplex::Outcome::optimal)
            return std::nullopt;
        return read(program);
    }

private:
    void add(const std::vector<double>& coefficients, double lower, double upper) {
        matrix_.insert(matrix_.end(), coefficients.begin(), coefficients.end());
        lower_.push_back(std::clamp(lower, -kFar, kFar));
        upper_.push_back(std::clamp(upper, lower_.back(), kFar));
    }

    bool add_demand(std::size_t r, const std::vector<double>& gains, double lower, double upper) {
        bool lower_gives = false;
        bool upper_gives = false;
        std::vector<double> low = gains;
        std::vector<double> high = gains;
        for (std::size_t each = 0; each < model_.loosenings.size(); ++each) {
            low[made_.size() + each] += model_.loose_lower(r, each);
            high[made_.size() + each] -= model_.loose_upper(r, each);
            lower_gives = lower_gives || model_.loose_lower(r, each) != 0.0;
            upper_gives = upper_gives || model_.loose_upper(r, each) != 0.0;
        }
        if (lower_gives || upper_gives) {
            add(low, lower, kFar);
            add(high, -kFar, upper);
            return true;
        }
        if (lower > upper + kSameLength) return false;
        add(gains, std::min(lower, upper), upper);
        return true;
    }

    [[nodiscard]] PricedSelection read(const Simplex& program) const {
        const Problem& problem = *model_.problem;
        PricedSelection found;
        found.selection = selection_;
        found.amounts.assign(model_.activities, 0.0);
        for (std::size_t i = 0; i < made_.size(); ++i)
            found.amounts[made_[i]] = program.value(i);
        found.cost = cost_of(problem, selection_, found.amounts);
        double order = 0.0;
        double bins = 0.0;
        for (const std::size_t c : made_)
            order += static_cast<double>(c + 1) / static_cast<double>(model_.activities);
        for (const auto& stack : selection_.stacks) {
            found.items += static_cast<int>(stack.size());
            if (!stack.empty()) ++bins;
            for (const std::size_t kind : stack)
                order += static_cast<double>(kind + 1) / static_cast<double>(problem.stock.size());
        }
        for (std::size_t r = 0; r < model_.rows; ++r) {
            if (!problem.rows[r].aim) continue;
            found.aim_distance +=
                std::abs(middle_of(problem, r, selection_, found.amounts) - *problem.rows[r].aim);
        }
        found.value = goal_.cost * found.cost + goal_.aim * found.aim_distance +
                      goal_.price * price_set_to_aim(problem, selection_) +
                      goal_.item * found.items + goal_.bin * bins + goal_.order * order;
        for (std::size_t each = 0; each < model_.loosenings.size(); ++each) {
            found.loosened.push_back(program.value(made_.size() + each));
            found.value += model_.loosenings[each].cost * found.loosened.back();
        }
        return found;
    }

    const SearchModel& model_;
    const Goal& goal_;
    const Selection& selection_;
    std::vector<std::size_t> made_;
    std::size_t aims_ = 0;
    std::size_t columns_ = 0;
    std::vector<double> matrix_;
    std::vector<double> lower_;
    std::vector<double> upper_;
};

}  // namespace

std::optional<PricedSelection> solve_amounts(const SearchModel& model, const Goal& goal,
                                             const Selection& selection, double most_cost) {
    DepthProgram program(model, goal, selection);
    if (!program.lay_out(most_cost)) return std::nullopt;
    return program.solve();
}

double cost_of(const Problem& problem, const Selection& selection,
               const std::vector<double>& amounts) {
    double cost = 0.0;
    for (std::size_t c = 0; c < problem.activities.size(); ++c) {
        if (selection.done[c])
            cost += problem.activities[c].cost + problem.activities[c].per_amount * amounts[c];
    }
    for (std::size_t q = 0; q < problem.bins.size(); ++q) {
        if (problem.bins[q].set_to_aim) continue;
        for (const std::size_t kind : selection.stacks[q])
            cost += problem.stock[kind].price;
    }
    return cost;
}

double price_set_to_aim(const Problem& problem, const Selection& selection) {
    double price = 0.0;
    for (std::size_t q = 0; q < problem.bins.size(); ++q) {
        if (!problem.bins[q].set_to_aim) continue;
        for (const std::size_t kind : selection.stacks[q])
            price += problem.stock[kind].price;
    }
    return price;
}

double middle_of(const Problem& problem, std::size_t row, const Selection& selection,
                 const std::vector<double>& amounts) {
    const ConstraintRow& demand = problem.rows[row];
    double middle = demand.gap;
    for (std::size_t c = 0; c < problem.activities.size(); ++c) {
        if (selection.done[c])
            middle += demand.activities[c].when_done + demand.activities[c].per_amount * amounts[c];
    }
    for (std::size_t q = 0; q < problem.bins.size(); ++q) {
        for (const std::size_t kind : selection.stacks[q])
            middle += demand.bins[q] * problem.stock[kind].thickness;
    }
    return middle;
}

}  // namespace trialfit::numerics
