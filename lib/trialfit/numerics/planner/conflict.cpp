// SPDX-License-Identifier: MIT
#include <trialfit/numerics/planner/conflict.hpp>

#include <algorithm>
#include <cmath>
#include <utility>

namespace trialfit::numerics {

namespace {

constexpr std::size_t kMostNodes = 20000;  // of one search; a limit in doubt stays in the conflict

double lower_of(const ConstraintRow& row) {
    return std::max(row.lower, row.judged_lower);
}

double upper_of(const ConstraintRow& row) {
    return std::min(row.upper, row.judged_upper);
}

std::vector<ConflictLimit> all_limits(const Problem& problem) {
    std::vector<ConflictLimit> limits;
    const std::size_t rows = problem.rows.size();
    std::vector<bool> has_lower(rows, false);
    std::vector<bool> has_upper(rows, false);
    for (std::size_t r = 0; r < rows; ++r) {
        const std::size_t first = limits_of(problem, r);
        if (std::isfinite(lower_of(problem.rows[r]))) has_lower[first] = true;
        if (std::isfinite(upper_of(problem.rows[r]))) has_upper[first] = true;
    }
    for (std::size_t r = 0; r < rows; ++r) {
        if (has_lower[r]) limits.push_back({LimitKind::row_lower, r});
        if (has_upper[r]) limits.push_back({LimitKind::row_upper, r});
    }
    for (std::size_t c = 0; c < problem.activities.size(); ++c)
        limits.push_back({LimitKind::activity_amount, c});
    for (std::size_t q = 0; q < problem.bins.size(); ++q)
        limits.push_back({LimitKind::bin_stock, q});
    return limits;
}

// A length that no relaxation need exceed.
double far_away(const Problem& problem) {
    double far = 1.0;
    for (const ConstraintRow& row : problem.rows) {
        double reach = std::abs(row.gap) + row.fixed_half_width;
        if (std::isfinite(lower_of(row))) reach += std::abs(lower_of(row));
        if (std::isfinite(upper_of(row))) reach += std::abs(upper_of(row));
        for (std::size_t c = 0; c < problem.activities.size(); ++c) {
            const Effect& effect = row.activities[c];
            reach += std::abs(effect.per_amount) * problem.activities[c].at_most +
                     std::abs(effect.when_done) + effect.not_done + effect.done;
        }
        for (const SharedTerm& size : row.shared) {
            double sensitivity = std::abs(size.sensitivity);
            for (const double change : size.change)
                sensitivity += std::abs(change);
            reach += sensitivity * size.half_width;
        }
        for (std::size_t q = 0; q < problem.bins.size(); ++q) {
            double tallest = 0.0;
            for (const std::size_t kind : problem.bins[q].stock) {
                const StockItem& item = problem.stock[kind];
                tallest = std::max(tallest, item.thickness + item.half_width);
            }
            reach += std::abs(row.bins[q]) * tallest * problem.bins[q].at_most;
        }
        far = std::max(far, reach);
    }
    return 2.0 * far;
}

class Explainer {
public:
    Explainer(const Problem& problem, Deadline& clock)
        : problem_(problem), clock_(clock), far_(far_away(problem)) {}

    Conflict run() {
        Conflict conflict;
        conflict.irreducible = true;
        filter(conflict);
        for (const ConflictLimit& limit : conflict.members)
            relax(limit, conflict);
        return conflict;
    }

private:
    // How far a limit may give.
    [[nodiscard]] double give_of(const ConflictLimit& limit) const {
        return limit.kind == LimitKind::activity_amount
                   ? std::min(far_, problem_.activities[limit.index].may_give)
                   : far_;
    }

    // Are the limits kept alone enough to rule out every plan?
    bool clash(const std::vector<ConflictLimit>& kept) {
        Problem eased = problem_;
        std::vector<Loosening> loosenings;
        std::vector<bool> no_lower(problem_.rows.size(), false);
        std::vector<bool> no_upper(problem_.rows.size(), false);
        for (const ConflictLimit& limit : all_limits(problem_)) {
            if (std::find(kept.begin(), kept.end(), limit) != kept.end()) continue;
            if (limit.kind == LimitKind::row_lower) {
                no_lower[limit.index] = true;
            } else if (limit.kind == LimitKind::row_upper) {
                no_upper[limit.index] = true;
            } else {
                loosenings.push_back({limit, 0.0, give_of(limit)});
            }
        }
        for (std::size_t r = 0; r < problem_.rows.size(); ++r) {
            no_lower[r] = no_lower[limits_of(problem_, r)];
            no_upper[r] = no_upper[limits_of(problem_, r)];
            if (no_lower[r]) eased.rows[r].lower = -kInfinity;
            if (no_upper[r]) eased.rows[r].upper = kInfinity;
        }
        if (problem_.row_judge) {
            eased.row_judge = [&](std::size_t row, const Selection& selection) {
                Allowed allowed = problem_.row_judge(row, selection);
                if (no_lower[row]) allowed.lower = -kInfinity;
                if (no_upper[row]) allowed.upper = kInfinity;
                return allowed;
            };
        }
        const SearchModel model(eased, std::move(loosenings), &clock_);
        SearchOptions hunt;
        hunt.any_will_do = true;
        hunt.most_nodes = kMostNodes;
        const SearchResult caught = search(model, hunt, clock_);
        if (!caught.best && !caught.proven) in_doubt_ = true;
        return !caught.best && caught.proven;
    }

    static bool of_a_row(const ConflictLimit& limit) {
        return limit.kind == LimitKind::row_lower || limit.kind == LimitKind::row_upper;
    }

    // Leaves out as many as it can at a time, then one by one; what limits activities and bins
    // first, so that rows that cannot be met together whatever is done are told alone.
    void filter(Conflict& conflict) {
        std::vector<ConflictLimit>& members = conflict.members;
        members = all_limits(problem_);
        const auto rows =
            std::stable_partition(members.begin(), members.end(),
                                  [](const ConflictLimit& limit) { return !of_a_row(limit); });
        std::vector<ConflictLimit> without(rows, members.end());
        if (clash(without)) members = std::move(without);
        for (std::size_t chunk = (members.size() + 1) / 2; chunk > 0; chunk /= 2) {
            in_doubt_ = false;
            for (std::size_t at = 0; at < members.size() && !clock_.stopped();) {
                const auto from = members.begin() + static_cast<std::ptrdiff_t>(at);
                const auto upto = members.begin() +
                                  static_cast<std::ptrdiff_t>(std::min(at + chunk, members.size()));
                std::vector<ConflictLimit> rest(members.begin(), from);
                rest.insert(rest.end(), upto, members.end());
                if (clash(rest)) {
                    members = std::move(rest);
                } else {
                    at += chunk;
                }
            }
        }
        std::stable_partition(members.begin(), members.end(), of_a_row);
        conflict.irreducible = !in_doubt_ && !clock_.was_stopped();
    }

    void relax(const ConflictLimit& limit, Conflict& conflict) {
        if (clock_.stopped()) {
            conflict.sought = false;
            return;
        }
        const SearchModel model(problem_, {{limit, 1.0, give_of(limit)}}, &clock_);
        SearchOptions hunt;
        hunt.goal.cost = 0.0;
        hunt.most_nodes = kMostNodes;
        const SearchResult caught = search(model, hunt, clock_);
        conflict.sought = conflict.sought && caught.proven;
        if (!caught.best) return;
        const double by = caught.best->loosened.front();
        if (conflict.relaxed && by >= conflict.relaxed_by - 1e-9) return;
        conflict.relaxed = limit;
        conflict.relaxed_by = by;
        conflict.relaxed_selection = caught.best->selection;
        conflict.relaxed_amounts = caught.best->amounts;
        if (limit.kind == LimitKind::activity_amount) conflict.relaxed_amounts[limit.index] += by;
    }

    const Problem& problem_;
    Deadline& clock_;
    double far_;
    bool in_doubt_ = false;
};

}  // namespace

Conflict explain(const Problem& problem, Deadline& clock) {
    return Explainer(problem, clock).run();
}

}  // namespace trialfit::numerics
