// SPDX-License-Identifier: MIT
#include <trialfit/numerics/planner/search_model.hpp>

#include <algorithm>
#include <cmath>
#include <utility>

namespace trialfit::numerics {

namespace {

double to_units(const Problem& problem, double half_width) {
    return problem.judge == MarginRule::rss ? half_width * half_width : half_width;
}

double shared_units_of(const Problem& problem, const SharedTerm& size, double sensitivity) {
    return to_units(problem, std::abs(sensitivity) * size.half_width);
}

void lay_out(SearchModel& model) {
    const Problem& problem = *model.problem;
    for (std::size_t r = 0; r < model.rows; ++r) {
        const ConstraintRow& row = problem.rows[r];
        for (std::size_t c = 0; c < model.activities; ++c) {
            model.per_amount(r, c) = row.activities[c].per_amount;
            model.when_done(r, c) = row.activities[c].when_done;
            model.not_done(r, c) = to_units(problem, row.activities[c].not_done);
            model.done(r, c) = to_units(problem, row.activities[c].done);
        }
        for (std::size_t q = 0; q < model.bins; ++q) {
            model.per_stack(r, q) = row.bins[q];
            model.stack_weight(r, q) =
                row.middle_alone ? 0.0 : to_units(problem, std::abs(row.bins[q]));
        }
        model.fixed.push_back(to_units(problem, row.fixed_half_width));
    }
}

void loosen(SearchModel& model) {
    for (std::size_t each = 0; each < model.loosenings.size(); ++each) {
        const ConflictLimit& limit = model.loosenings[each].limit;
        model.loose_activity.push_back(limit.kind == LimitKind::activity_amount ? limit.index
                                                                                : model.activities);
        for (std::size_t r = 0; r < model.rows; ++r) {
            if (limit.kind == LimitKind::activity_amount)
                model.loose_gap(r, each) = model.per_amount(r, limit.index);
            if (limit.kind == LimitKind::bin_stock)
                model.loose_gap(r, each) = model.per_stack(r, limit.index);
            if (limits_of(*model.problem, r) != limit.index) continue;
            if (limit.kind == LimitKind::row_lower) model.loose_lower(r, each) = 1.0;
            if (limit.kind == LimitKind::row_upper) model.loose_upper(r, each) = 1.0;
        }
    }
}

}  // namespace

Goal tie_goal(const Problem& problem) {
    double dearest = 0.0;
    for (const StockItem& each : problem.stock)
        dearest = std::max(dearest, each.price);
    return {.cost = 100.0,
            .aim = 1.0,
            .price = dearest > 0.0 ? 1e-6 / dearest : 0.0,
            .item = 1e-7,
            .order = 1e-9,
            .bin = 1e-8};
}

SearchModel::SearchModel(const Problem& given, std::vector<Loosening> may_give, Deadline* clock)
    : problem(&given),
      activities(given.activities.size()),
      bins(given.bins.size()),
      rows(given.rows.size()),
      scarce(scarce_stock(given)),
      per_amount(rows, activities),
      when_done(rows, activities),
      not_done(rows, activities),
      done(rows, activities),
      per_stack(rows, bins),
      stack_weight(rows, bins),
      loosenings(std::move(may_give)),
      loose_gap(rows, loosenings.size()),
      loose_lower(rows, loosenings.size()),
      loose_upper(rows, loosenings.size()) {
    lay_out(*this);
    loosen(*this);
    choose_stacks(clock);
    count_uses();
}

void SearchModel::choose_stacks(Deadline* clock) {
    constexpr std::size_t kMostStacks = 200000;  // over all bins, so that memory is bounded
    constexpr std::size_t kFewestStacks = 500;
    StackBounds bounds{
        .limit = std::max(kFewestStacks, kMostStacks / std::max<std::size_t>(bins, 1)),
        .clock = clock};
    const std::vector<Bin>& all = problem->bins;
    for (std::size_t q = 0; q < bins; ++q) {
        const auto alike = [&](const Bin& other) {
            return other.stock == all[q].stock && other.at_least == all[q].at_least &&
                   other.at_most == all[q].at_most && other.grid == all[q].grid;
        };
        const auto first =
            static_cast<std::size_t>(std::find_if(all.begin(), all.end(), alike) - all.begin());
        if (first < q) {
            choices.push_back(choices[first]);
        } else {
            bounds.thickest = 0.0;
            for (std::size_t other = q; other < bins; ++other)
                if (alike(all[other]))
                    bounds.thickest = std::max(bounds.thickest, thickest_of_use(other));
            choices.push_back(stack_choice(*problem, q, scarce, bounds));
        }
        complete = complete && choices.back().complete;
    }
}

double SearchModel::tallest(std::size_t bin) const {
    double thickest = 0.0;
    for (const std::size_t kind : problem->bins[bin].stock)
        thickest = std::max(thickest, problem->stock[kind].thickness);
    return thickest * problem->bins[bin].at_most;
}

double SearchModel::thickest_of_use(std::size_t bin) const {
    double thickest = kInfinity;
    for (std::size_t r = 0; r < rows; ++r) {
        const ConstraintRow& row = problem->rows[r];
        const double by = per_stack(r, bin);
        if (by == 0.0 || !std::isfinite(by > 0.0 ? row.upper : row.lower)) continue;
        // How far all else may move the gap the other way.
        double room = by > 0.0 ? row.upper - row.gap : row.gap - row.lower;
        const auto give = [&](double at_one_end, double at_other) {
            const double way = by > 0.0 ? -1.0 : 1.0;
            room += std::max({way * at_one_end, way * at_other, 0.0});
        };
        for (std::size_t c = 0; c < activities; ++c)
            give(when_done(r, c) + per_amount(r, c) * problem->activities[c].at_least,
                 when_done(r, c) + per_amount(r, c) * problem->activities[c].at_most);
        for (std::size_t q = 0; q < bins; ++q)
            if (q != bin) give(0.0, per_stack(r, q) * tallest(q));
        for (std::size_t each = 0; each < loosenings.size(); ++each) {
            const double most = loosenings[each].at_most;
            give(0.0, loose_gap(r, each) * most);
            room += (by > 0.0 ? loose_upper(r, each) : loose_lower(r, each)) * most;
        }
        thickest = std::min(thickest, room / std::abs(by));
    }
    return thickest;
}

void SearchModel::count_uses() {
    for (std::size_t kind = 0; kind < scarce.size(); ++kind) {
        if (scarce[kind]) scarce_kinds.push_back(kind);
    }
    for (const StackChoice& choice : choices) {
        std::vector<int>& uses = uses_.emplace_back();
        uses.reserve(choice.points.size() * scarce_kinds.size());
        for (const StackPoint& point : choice.points) {
            for (const std::size_t kind : scarce_kinds) {
                std::ptrdiff_t least = std::numeric_limits<int>::max();
                for (const auto& stack : point.stacks)
                    least = std::min(least, std::count(stack.begin(), stack.end(), kind));
                uses.push_back(static_cast<int>(least));
            }
        }
    }
}

double SearchModel::margin(double units) const {
    if (problem->judge == MarginRule::worst_case) return units;
    return problem->inflation * std::sqrt(std::max(units, 0.0));
}

double SearchModel::units(double margin) const {
    if (problem->judge == MarginRule::worst_case) return margin;
    if (margin < 0.0) return -1.0;
    if (problem->inflation == 0.0) return kInfinity;
    const double root = margin / problem->inflation;
    return root * root;
}

Interval SearchModel::shared_units(std::size_t row,
                                   const std::vector<ActivityState>& states) const {
    Interval total;
    for (const SharedTerm& size : problem->rows[row].shared) {
        double sensitivity = size.sensitivity;
        double lowest = 0.0;
        double highest = 0.0;
        for (std::size_t c = 0; c < activities; ++c) {
            if (states[c] == ActivityState::done) sensitivity += size.change[c];
            if (states[c] != ActivityState::open) continue;
            lowest += std::min(size.change[c], 0.0);
            highest += std::max(size.change[c], 0.0);
        }
        // Not every value between the ends can be had, so this is a bound, exact once all is
        // settled.
        const double low = sensitivity + lowest;
        const double high = sensitivity + highest;
        const double nearest = low > 0.0 ? low : (high < 0.0 ? high : 0.0);
        total.least += shared_units_of(*problem, size, nearest);
        total.most += shared_units_of(*problem, size, std::max(std::abs(low), std::abs(high)));
    }
    return total;
}

double SearchModel::units_of(std::size_t row, const Selection& selection) const {
    std::vector<ActivityState> states(activities);
    double sum = fixed[row];
    for (std::size_t c = 0; c < activities; ++c) {
        states[c] = selection.done[c] ? ActivityState::done : ActivityState::not_done;
        sum += selection.done[c] ? done(row, c) : not_done(row, c);
    }
    for (std::size_t q = 0; q < bins; ++q) {
        for (const std::size_t kind : selection.stacks[q])
            sum += stack_weight(row, q) * to_units(*problem, problem->stock[kind].half_width);
    }
    return sum + shared_units(row, states).most;
}

Allowed SearchModel::allowed(std::size_t row, const Selection& selection) const {
    if (problem->row_judge) return problem->row_judge(row, selection);
    const double by = margin(units_of(row, selection));
    return {problem->rows[row].lower + by, problem->rows[row].upper - by};
}

}  // namespace trialfit::numerics
