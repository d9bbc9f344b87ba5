// SPDX-License-Identifier: MIT
#include <trialfit/numerics/planner/relaxation.hpp>

#include <algorithm>
#include <cmath>

#include <trialfit/numerics/planner/tolerances.hpp>

namespace trialfit::numerics {

Relaxation::Relaxation(const SearchModel& model, const Goal& goal,
                       const std::vector<PlanKind>& excluded, double most_cost)
    : model_(model), goal_(goal), hulls_(model.bins), least_spread_(model.bins) {
    set_values();
    set_columns();
    for (std::size_t r = 0; r < model.rows; ++r) {
        rows_.push_back(blank(Sense::at_least, 0.0));
        rows_.push_back(blank(Sense::at_most, 0.0));
        margins_vary_ = margins_vary_ || !model.problem->rows[r].shared.empty();
    }
    margins_vary_ = margins_vary_ || model.problem->judge == MarginRule::rss;
    if (!margins_vary_) {
        for (std::size_t r = 0; r < model.rows; ++r)
            write_gap_rows(r, {}, 0.0);
    }
    add_links();
    add_aims();
    for (std::size_t r = 0; r < model.rows; ++r)
        add_knapsack(r);
    for (const PlanKind& kind : excluded)
        add_excluded(kind);
    if (std::isfinite(most_cost)) add_most_cost(most_cost);
}

// Not all of a kind: whether a bin carries items is at least the share that its stack has of its
// greatest thickness.
void Relaxation::add_excluded(const PlanKind& kind) {
    const auto size = static_cast<double>(kind.activities.size() + kind.bins.size());
    LinearRow row = blank(Sense::at_most, size - 1.0);
    for (const std::size_t c : kind.activities)
        row.columns[c] = 1.0;
    for (const std::size_t q : kind.bins)
        row.thickness[q] = 1.0 / model_.choices[q].points.back().thickness;
    rows_.push_back(row);
}

// Of the activities alone: what items cost only makes it less.
void Relaxation::add_most_cost(double most_cost) {
    LinearRow row = blank(Sense::at_most, most_cost + kSameLength);
    for (std::size_t c = 0; c < model_.activities; ++c) {
        row.columns[c] = model_.problem->activities[c].cost;
        row.columns[model_.activities + c] = model_.problem->activities[c].per_amount;
    }
    rows_.push_back(row);
}

Relaxation::LinearRow Relaxation::blank(Sense sense, double limit) const {
    return {std::vector<double>(costs_.size(), 0.0), std::vector<double>(model_.bins, 0.0),
            std::vector<double>(model_.bins, 0.0), sense, limit};
}

void Relaxation::set_values() {
    const std::size_t kinds = model_.problem->stock.size();
    for (std::size_t q = 0; q < model_.bins; ++q) {
        const StackChoice& choice = model_.choices[q];
        const double by_price = model_.problem->bins[q].set_to_aim ? goal_.price : goal_.cost;
        std::vector<double>& values = values_.emplace_back();
        for (const StackPoint& point : choice.points) {
            double order = 0.0;
            for (const std::size_t kind : point.stacks.front())
                order += static_cast<double>(kind + 1) / static_cast<double>(kinds);
            values.push_back(by_price * point.price + goal_.item * point.count +
                             (point.count > 0 ? goal_.bin : 0.0) + goal_.order * order);
        }
        const StackPoint& last = choice.points.back();
        spread_slope_.push_back(last.thickness > 0.0 ? last.spread / last.thickness : 0.0);
    }
}

void Relaxation::set_columns() {
    const Problem& problem = *model_.problem;
    costs_.assign(loose(model_.loosenings.size()), 0.0);
    greatest_.assign(costs_.size(), 0.0);
    for (std::size_t c = 0; c < model_.activities; ++c) {
        costs_[c] =
            goal_.cost * problem.activities[c].cost +
            goal_.order * static_cast<double>(c + 1) / static_cast<double>(model_.activities);
        costs_[model_.activities + c] = goal_.cost * problem.activities[c].per_amount;
        greatest_[c] = 1.0;
        greatest_[model_.activities + c] = problem.activities[c].at_most;
    }
    for (std::size_t q = 0; q < model_.bins; ++q) {
        const auto& points = model_.choices[q].points;
        for (std::size_t each = 0; each < kSegments; ++each)
            greatest_[segment(q, each)] = points.back().thickness - points.front().thickness;
    }
    for (std::size_t each = 0; each < model_.loosenings.size(); ++each) {
        costs_[loose(each)] = model_.loosenings[each].cost;
        greatest_[loose(each)] = model_.loosenings[each].at_most;
    }
    if (goal_.aim == 0.0) return;
    for (const ConstraintRow& row : problem.rows) {
        if (!row.aim) continue;
        costs_.push_back(goal_.aim);
        greatest_.push_back(kInfinity);  // settled in add_aims
    }
}

void Relaxation::write_gap_rows(std::size_t r, const Chord& chord, double shared) {
    const ConstraintRow& demand = model_.problem->rows[r];
    LinearRow& low = rows_[2 * r];
    LinearRow& high = rows_[2 * r + 1];
    double units = model_.fixed[r] + shared;
    for (std::size_t c = 0; c < model_.activities; ++c) {
        const double saved = chord.slope * (model_.not_done(r, c) - model_.done(r, c));
        low.columns[c] = model_.when_done(r, c) + saved;
        high.columns[c] = model_.when_done(r, c) - saved;
        low.columns[model_.activities + c] = high.columns[model_.activities + c] =
            model_.per_amount(r, c);
        units += model_.not_done(r, c);
    }
    for (std::size_t q = 0; q < model_.bins; ++q) {
        low.thickness[q] = high.thickness[q] = model_.per_stack(r, q);
        low.spread[q] = -chord.slope * model_.stack_weight(r, q);
        high.spread[q] = chord.slope * model_.stack_weight(r, q);
    }
    for (std::size_t each = 0; each < model_.loosenings.size(); ++each) {
        low.columns[loose(each)] = model_.loose_gap(r, each) + model_.loose_lower(r, each);
        high.columns[loose(each)] = model_.loose_gap(r, each) - model_.loose_upper(r, each);
    }
    const double margin = chord.at_zero + chord.slope * units;
    low.limit = demand.lower - demand.gap + margin;
    high.limit = demand.upper - demand.gap - margin;
}

void Relaxation::add_links() {
    for (std::size_t c = 0; c < model_.activities; ++c) {
        const Activity& activity = model_.problem->activities[c];
        LinearRow most = blank(Sense::at_most, 0.0);
        most.columns[model_.activities + c] = 1.0;
        most.columns[c] = -activity.at_most;
        rows_.push_back(most);
        if (activity.at_least <= 0.0) continue;
        LinearRow least = blank(Sense::at_least, 0.0);
        least.columns[model_.activities + c] = 1.0;
        least.columns[c] = -activity.at_least;
        rows_.push_back(least);
    }
    for (std::size_t each = 0; each < model_.loosenings.size(); ++each) {
        if (model_.loose_activity[each] == model_.activities) continue;
        LinearRow row = blank(Sense::at_most, 0.0);
        row.columns[loose(each)] = 1.0;
        row.columns[model_.loose_activity[each]] = -model_.loosenings[each].at_most;
        rows_.push_back(row);
    }
}

// |middle - aim| <= e, as two rows.
void Relaxation::add_aims() {
    if (goal_.aim == 0.0) return;
    std::size_t column = loose(model_.loosenings.size());
    for (std::size_t r = 0; r < model_.rows; ++r) {
        const ConstraintRow& demand = model_.problem->rows[r];
        if (!demand.aim) continue;
        const double away = *demand.aim - demand.gap;
        double greatest = std::abs(away);
        LinearRow below = blank(Sense::at_least, away);
        LinearRow above = blank(Sense::at_most, away);
        for (std::size_t c = 0; c < model_.activities; ++c) {
            below.columns[c] = model_.when_done(r, c);
            below.columns[model_.activities + c] = model_.per_amount(r, c);
            greatest += std::abs(model_.when_done(r, c)) +
                        std::abs(model_.per_amount(r, c)) * greatest_[model_.activities + c];
        }
        for (std::size_t q = 0; q < model_.bins; ++q) {
            below.thickness[q] = model_.per_stack(r, q);
            greatest +=
                std::abs(model_.per_stack(r, q)) * model_.choices[q].points.back().thickness;
        }
        for (std::size_t each = 0; each < model_.loosenings.size(); ++each) {
            below.columns[loose(each)] = model_.loose_gap(r, each);
            greatest += std::abs(model_.loose_gap(r, each)) * greatest_[loose(each)];
        }
        above.columns = below.columns;
        above.thickness = below.thickness;
        below.columns[column] = 1.0;
        above.columns[column] = -1.0;
        greatest_[column++] = greatest;
        rows_.push_back(below);
        rows_.push_back(above);
    }
}

// Units by which a row with nothing done exceeds what both its limits together leave room for.
double Relaxation::units_short(std::size_t r) const {
    const ConstraintRow& demand = model_.problem->rows[r];
    for (std::size_t each = 0; each < model_.loosenings.size(); ++each) {
        if (model_.loose_lower(r, each) != 0.0 || model_.loose_upper(r, each) != 0.0)
            return -kInfinity;
    }
    const double room = model_.units((demand.upper - demand.lower) / 2.0 + 1e-9);
    const std::vector<ActivityState> open(model_.activities, ActivityState::open);
    double units = model_.fixed[r] + model_.shared_units(r, open).least;
    for (std::size_t c = 0; c < model_.activities; ++c)
        units += model_.not_done(r, c);
    for (std::size_t q = 0; q < model_.bins; ++q) {
        double least = kInfinity;
        for (const StackPoint& point : model_.choices[q].points)
            least = std::min(least, point.spread);
        units += model_.stack_weight(r, q) * least;
    }
    return units - room;
}

// The half-widths in force must fit between the limits, wherever the middle lies.
void Relaxation::add_knapsack(std::size_t r) {
    const double missing = units_short(r);
    if (!(missing > 0.0)) return;
    LinearRow row = blank(Sense::at_least, 1.0);
    for (std::size_t c = 0; c < model_.activities; ++c) {
        const double saved = model_.not_done(r, c) - model_.done(r, c);
        if (saved > 0.0) row.columns[c] = std::min(saved / missing, 1.0);
    }
    rows_.push_back(row);
}

bool Relaxation::add_covers(SearchNode& node) {
    bool added = false;
    for (std::size_t r = 0; r < model_.rows; ++r) {
        const double missing = units_short(r);
        if (!(missing > 0.0)) continue;
        std::vector<std::size_t> order;
        double left = 0.0;
        for (std::size_t c = 0; c < model_.activities; ++c) {
            const double saved = model_.not_done(r, c) - model_.done(r, c);
            if (saved <= 0.0) continue;
            order.push_back(c);
            left += saved;
        }
        const auto saved = [&](std::size_t c) { return model_.not_done(r, c) - model_.done(r, c); };
        std::sort(order.begin(), order.end(),
                  [&](std::size_t a, std::size_t b) { return saved(a) > saved(b); });
        // Of the `upto` that save most, at least n must be done when the n-1 best of them and
        // all the others are not enough.
        double best = 0.0;
        std::size_t upto = 0;
        double share = 0.0;
        for (std::size_t n = 1; n <= order.size(); ++n) {
            while (upto < order.size() && best + left >= missing) {
                share += node.program.value(order[upto]);
                left -= saved(order[upto++]);
            }
            if (best + left >= missing) break;
            if (share < static_cast<double>(n) - 1e-4) {
                LinearRow row = blank(Sense::at_least, static_cast<double>(n));
                for (std::size_t i = 0; i < upto; ++i)
                    row.columns[order[i]] = 1.0;
                rows_.push_back(row);
                added = true;
                break;
            }
            best += saved(order[n - 1]);
        }
    }
    if (added) {
        Simplex program = make_program();
        program.take_basis(node.program);
        node.program = program;
    }
    return added;
}

Simplex Relaxation::make_program() const {
    const std::size_t columns = costs_.size();
    std::vector<double> matrix;
    matrix.reserve(rows_.size() * columns);
    for (const LinearRow& row : rows_) {
        const std::size_t start = matrix.size();
        matrix.insert(matrix.end(), row.columns.begin(), row.columns.end());
        for (std::size_t q = 0; q < model_.bins; ++q) {
            for (std::size_t each = 0; each < kSegments; ++each)
                matrix[start + segment(q, each)] =
                    row.thickness[q] + row.spread[q] * spread_slope_[q];
        }
    }
    return {rows_.size(), columns, matrix};
}

}  // namespace trialfit::numerics
