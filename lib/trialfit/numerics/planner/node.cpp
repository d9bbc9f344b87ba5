// SPDX-License-Identifier: MIT
#include <trialfit/numerics/planner/node.hpp>
#include <trialfit/numerics/planner/tolerances.hpp>

#include <algorithm>
#include <numeric>
#include <optional>

namespace trialfit::numerics {

namespace {

struct Span {
    double least = 0.0;
    double most = 0.0;
    void add(const Span& other) {
        least += other.least;
        most += other.most;
    }
    [[nodiscard]] Span without(const Span& other) const {
        return {least - other.least, most - other.most};
    }
};

Span scaled(double factor, double least, double most) {
    return factor >= 0.0 ? Span{factor * least, factor * most}
                         : Span{factor * most, factor * least};
}

/// One pass over one row.
class RowPass {
public:
    RowPass(const SearchModel& model, std::size_t row, SearchNode& node)
        : model_(model), row_(row), node_(node), demand_(model.problem->rows[row]) {}

    /// False when the row cannot be met.
    bool run() {
        total_up();
        if (!meets(gap_, units_)) return false;
        for (std::size_t c = 0; c < model_.activities; ++c) {
            if (!done(c)) return false;
        }
        for (std::size_t q = 0; q < model_.bins; ++q) {
            if (!bin(q)) return false;
        }
        return true;
    }
    [[nodiscard]] bool changed() const { return changed_; }

private:
    [[nodiscard]] Span cut_made(std::size_t c) const {
        Span span =
            scaled(model_.per_amount(row_, c), node_.amounts[c].least, node_.amounts[c].most);
        span.least += model_.when_done(row_, c);
        span.most += model_.when_done(row_, c);
        return span;
    }
    [[nodiscard]] Span cut_gap(std::size_t c) const {
        if (node_.states[c] == ActivityState::not_done) return {};
        Span span = cut_made(c);
        if (node_.states[c] == ActivityState::open) {
            span.least = std::min(span.least, 0.0);
            span.most = std::max(span.most, 0.0);
        }
        return span;
    }
    [[nodiscard]] double least_units(std::size_t c) const {
        if (node_.states[c] == ActivityState::not_done) return model_.not_done(row_, c);
        if (node_.states[c] == ActivityState::done) return model_.done(row_, c);
        return std::min(model_.not_done(row_, c), model_.done(row_, c));
    }
    [[nodiscard]] const StackPoint& point(std::size_t q, std::size_t index) const {
        return model_.choices[q].points[node_.stacks[q][index]];
    }
    [[nodiscard]] Span seat_gap(std::size_t q) const {
        return scaled(model_.per_stack(row_, q), point(q, 0).thickness,
                      point(q, node_.stacks[q].size() - 1).thickness);
    }

    void total_up() {
        gap_ = {demand_.gap, demand_.gap};
        units_ = units_range(model_, row_, node_).least;
        for (std::size_t c = 0; c < model_.activities; ++c)
            gap_.add(cut_gap(c));
        for (std::size_t q = 0; q < model_.bins; ++q)
            gap_.add(seat_gap(q));
        lower_ = demand_.lower;
        upper_ = demand_.upper;
        for (std::size_t each = 0; each < model_.loosenings.size(); ++each) {
            const double most = model_.loosenings[each].at_most;
            gap_.add(scaled(model_.loose_gap(row_, each), 0.0, most));
            lower_ -= model_.loose_lower(row_, each) * most;
            upper_ += model_.loose_upper(row_, each) * most;
        }
    }

    [[nodiscard]] bool meets(const Span& gap, double units) const {
        const double margin = model_.margin(units) - kSameLength;
        return gap.most >= lower_ + margin && gap.least <= upper_ - margin &&
               2.0 * margin <= upper_ - lower_;
    }

    bool done(std::size_t c) {
        if (node_.states[c] == ActivityState::not_done) return true;
        const Span others = gap_.without(cut_gap(c));
        const double other_units = units_ - least_units(c);
        if (node_.states[c] == ActivityState::open) {
            Span made = others;
            made.add(cut_made(c));
            const bool may_do = meets(made, other_units + model_.done(row_, c));
            const bool may_leave = meets(others, other_units + model_.not_done(row_, c));
            if (!may_do && !may_leave) return false;
            if (may_do && may_leave) return true;
            node_.states[c] = may_do ? ActivityState::done : ActivityState::not_done;
            solve_amounts(c, others, other_units);
            if (!may_do) return true;
        }
        return narrow_amount(c, others, other_units + model_.done(row_, c));
    }

    void solve_amounts(std::size_t c, const Span& others, double other_units) {
        changed_ = true;
        gap_ = others;
        gap_.add(cut_gap(c));
        units_ = other_units + least_units(c);
    }

    bool narrow_amount(std::size_t c, const Span& others, double units) {
        const double by = model_.per_amount(row_, c);
        if (by == 0.0) return true;
        const double margin = model_.margin(units) - kSameLength;
        const double shift = model_.when_done(row_, c);
        double least = (lower_ + margin - others.most - shift) / by;
        double most = (upper_ - margin - others.least - shift) / by;
        if (by < 0.0) std::swap(least, most);
        Interval& amount = node_.amounts[c];
        if (least > amount.least + 1e-7) {
            amount.least = std::min(least, amount.most);
            changed_ = true;
        }
        if (most < amount.most - 1e-7) {
            amount.most = std::max(most, amount.least);
            changed_ = true;
        }
        gap_ = others;
        gap_.add(cut_gap(c));
        return least <= amount.most + kSameLength && most >= amount.least - kSameLength;
    }

    bool bin(std::size_t q) {
        const double by = model_.per_stack(row_, q);
        if (by == 0.0) return true;
        std::vector<std::uint32_t>& open = node_.stacks[q];
        const Span others = gap_.without(seat_gap(q));
        const double margin = model_.margin(units_) - kSameLength;
        double least = (lower_ + margin - others.most) / by;
        double most = (upper_ - margin - others.least) / by;
        if (by < 0.0) std::swap(least, most);
        if (least <= point(q, 0).thickness && most >= point(q, open.size() - 1).thickness)
            return true;
        const auto& points = model_.choices[q].points;
        std::erase_if(open, [&](std::uint32_t each) {
            return points[each].thickness < least || points[each].thickness > most;
        });
        changed_ = true;
        if (open.empty()) return false;
        refresh_spread(model_, q, node_);
        gap_ = others;
        gap_.add(seat_gap(q));
        return true;
    }

    const SearchModel& model_;
    std::size_t row_;
    SearchNode& node_;
    const ConstraintRow& demand_;
    Span gap_;
    double units_ = 0.0;
    double lower_ = 0.0;
    double upper_ = 0.0;
    bool changed_ = false;
};

// What is left of an excluded kind in a node: how many of its activities and bins are still open.
struct LeftOpen {
    bool kept_out = false;  // one of them is settled the other way
    std::size_t open = 0;
    std::optional<std::size_t> done;  // the last that is open
    std::optional<std::size_t> bin;
};

LeftOpen left_open(const SearchModel& model, const PlanKind& kind, const SearchNode& node) {
    LeftOpen left;
    for (const std::size_t c : kind.activities) {
        left.kept_out = left.kept_out || node.states[c] == ActivityState::not_done;
        if (node.states[c] != ActivityState::open) continue;
        ++left.open;
        left.done = c;
    }
    for (const std::size_t q : kind.bins) {
        const std::vector<std::uint32_t>& open = node.stacks[q];
        if (open.empty() || model.choices[q].points[open.front()].count > 0) continue;
        if (open.size() == 1) {
            left.kept_out = true;
        } else {
            ++left.open;
            left.bin = q;
        }
    }
    return left;
}

// At least one activity or bin of each excluded kind stays out.
bool keep_out(const SearchModel& model, const std::vector<PlanKind>& excluded, SearchNode& node) {
    for (const PlanKind& kind : excluded) {
        const LeftOpen left = left_open(model, kind, node);
        if (left.kept_out || left.open > 1) continue;
        if (left.open == 0) return false;
        if (left.done) {
            node.states[*left.done] = ActivityState::not_done;
            continue;
        }
        node.stacks[*left.bin].resize(1);
        refresh_spread(model, *left.bin, node);
    }
    return true;
}

// Pieces that some bins cannot do without are not there for the others. Bins with many points
// open are passed over: they can do without nearly anything.
bool ration(const SearchModel& model, SearchNode& node, bool& changed) {
    constexpr std::size_t kFew = 32;
    const std::size_t kinds = model.scarce_kinds.size();
    if (kinds == 0) return true;
    std::vector<int> left(kinds);
    for (std::size_t n = 0; n < kinds; ++n)
        left[n] = *model.problem->stock[model.scarce_kinds[n]].pieces;
    std::vector<std::vector<int>> needs(model.bins, std::vector<int>(kinds, 0));
    for (std::size_t q = 0; q < model.bins; ++q) {
        if (node.stacks[q].size() > kFew) continue;
        for (std::size_t n = 0; n < kinds; ++n) {
            int least = model.least_use(q, node.stacks[q].front(), n);
            for (const std::uint32_t each : node.stacks[q])
                least = std::min(least, model.least_use(q, each, n));
            needs[q][n] = least;
            left[n] -= least;
        }
    }
    if (std::any_of(left.begin(), left.end(), [](int pieces) { return pieces < 0; })) return false;
    for (std::size_t q = 0; q < model.bins; ++q) {
        if (node.stacks[q].size() > kFew) continue;
        const auto too_many = [&](std::uint32_t each) {
            for (std::size_t n = 0; n < kinds; ++n) {
                if (model.least_use(q, each, n) > left[n] + needs[q][n]) return true;
            }
            return false;
        };
        if (std::erase_if(node.stacks[q], too_many) == 0) continue;
        if (node.stacks[q].empty()) return false;
        refresh_spread(model, q, node);
        changed = true;
    }
    return true;
}

class Sharing {
public:
    Sharing(const SearchModel& model, const std::vector<std::uint32_t>& points)
        : model_(model), points_(points), left_(model.problem->stock.size(), 0) {
        for (std::size_t kind = 0; kind < left_.size(); ++kind)
            left_[kind] = model.problem->stock[kind].pieces.value_or(0);
    }
    bool share(std::size_t bin) {
        if (bin == points_.size()) return true;
        const auto& stacks = model_.choices[bin].points[points_[bin]].stacks;
        return std::any_of(stacks.begin(), stacks.end(), [&](const auto& stack) {
            if (tries_left_ == 0) return false;
            --tries_left_;
            if (take(stack)) {
                taken_.push_back(stack);
                if (share(bin + 1)) return true;
                taken_.pop_back();
            }
            put_back(stack);
            return false;
        });
    }
    [[nodiscard]] bool gave_up() const { return tries_left_ == 0; }
    std::vector<std::vector<std::size_t>> taken() { return std::move(taken_); }

private:
    bool take(const std::vector<std::size_t>& stack) {
        bool enough = true;
        for (const std::size_t kind : stack) {
            if (model_.scarce[kind]) enough = --left_[kind] >= 0 && enough;
        }
        return enough;
    }
    void put_back(const std::vector<std::size_t>& stack) {
        for (const std::size_t kind : stack) {
            if (model_.scarce[kind]) ++left_[kind];
        }
    }
    const SearchModel& model_;
    const std::vector<std::uint32_t>& points_;
    std::vector<int> left_;
    std::vector<std::vector<std::size_t>> taken_;
    std::size_t tries_left_ = 100000;
};

}  // namespace

bool SearchNode::settled() const {
    return std::none_of(states.begin(), states.end(),
                        [](ActivityState state) { return state == ActivityState::open; }) &&
           std::all_of(stacks.begin(), stacks.end(),
                       [](const auto& open) { return open.size() == 1; });
}

SearchNode root_node(const SearchModel& model) {
    SearchNode node;
    node.states.assign(model.activities, ActivityState::open);
    for (const Activity& activity : model.problem->activities)
        node.amounts.push_back({activity.at_least, activity.at_most});
    for (const StackChoice& choice : model.choices) {
        node.stacks.emplace_back(choice.points.size());
        std::iota(node.stacks.back().begin(), node.stacks.back().end(), 0U);
    }
    node.spreads.resize(model.bins);
    for (std::size_t q = 0; q < model.bins; ++q)
        refresh_spread(model, q, node);
    return node;
}

void refresh_spread(const SearchModel& model, std::size_t bin, SearchNode& node) {
    Interval& spread = node.spreads[bin];
    spread = {kInfinity, 0.0};
    for (const std::uint32_t each : node.stacks[bin]) {
        spread.least = std::min(spread.least, model.choices[bin].points[each].spread);
        spread.most = std::max(spread.most, model.choices[bin].points[each].spread);
    }
}

Interval units_range(const SearchModel& model, std::size_t row, const SearchNode& node) {
    Interval range = model.shared_units(row, node.states);
    range.least += model.fixed[row];
    range.most += model.fixed[row];
    for (std::size_t c = 0; c < model.activities; ++c) {
        const double not_done = model.not_done(row, c);
        const double done = model.done(row, c);
        if (node.states[c] == ActivityState::not_done) {
            range.least += not_done;
            range.most += not_done;
        } else if (node.states[c] == ActivityState::done) {
            range.least += done;
            range.most += done;
        } else {
            range.least += std::min(not_done, done);
            range.most += std::max(not_done, done);
        }
    }
    for (std::size_t q = 0; q < model.bins; ++q) {
        range.least += model.stack_weight(row, q) * node.spreads[q].least;
        range.most += model.stack_weight(row, q) * node.spreads[q].most;
    }
    return range;
}

bool propagate(const SearchModel& model, const std::vector<PlanKind>& excluded, SearchNode& node) {
    for (const auto& open : node.stacks) {
        if (open.empty()) return false;
    }
    constexpr int kPasses = 6;  // each only narrows; what is left is the linear program's to find
    for (int pass = 0; pass < kPasses; ++pass) {
        if (!keep_out(model, excluded, node)) return false;
        bool changed = false;
        for (std::size_t row = 0; row < model.rows; ++row) {
            RowPass each(model, row, node);
            if (!each.run()) return false;
            changed = changed || each.changed();
        }
        if (!ration(model, node, changed)) return false;
        if (!changed) return true;
    }
    return keep_out(model, excluded, node);
}

Shares allocate_stock(const SearchModel& model, const std::vector<std::uint32_t>& points) {
    Sharing sharing(model, points);
    Shares shares;
    if (sharing.share(0)) {
        shares.stacks = sharing.taken();
    } else {
        shares.gave_up = sharing.gave_up();
    }
    return shares;
}

}  // namespace trialfit::numerics
