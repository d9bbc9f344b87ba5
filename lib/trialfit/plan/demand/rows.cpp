// SPDX-License-Identifier: MIT
#include <algorithm>
#include <cmath>
#include <map>
#include <trialfit/numerics/planner/tolerances.hpp>
#include <trialfit/plan/demand/rows.hpp>
#include <trialfit/stack/bounds.hpp>
#include <utility>

namespace trialfit::plan {

namespace {

using Iterator = Eigen::SparseVector<double>::InnerIterator;
using stack::Form;
using stack::FormBuilder;

constexpr double kCancelled = 1e-13;

Form empty_seats(const Pieces& pieces, const PlanDemand& demand) {
    FormBuilder builder;
    builder.add(demand.now, 1.0);
    for (std::size_t q = 0; q < demand.by_stack.size(); ++q) {
        if (demand.by_stack[q] == 0.0) continue;
        for (const Form& piece : pieces.demands.seats[q].pieces)
            builder.add(piece, -demand.by_stack[q]);
    }
    return std::move(builder).build(demand.now.sensitivities.size());
}

// What drops out of a demand when a length is made anew.
Form dropped(const PlanDemand& demand, const NewLength& length) {
    if (!demand.diameters) return length.old;
    FormBuilder builder;
    builder.add(length.written);
    return std::move(builder).build(length.old.sensitivities.size());
}

// What a size does to a row: its sensitivity as things stand, and by how much each cut changes it.
struct Says {
    double sensitivity = 0.0;
    std::map<std::size_t, double> changes;
};

class RowMaker {
public:
    RowMaker(const Pieces& pieces, const PlanDemand& demand, bool exact)
        : pieces_(pieces), demand_(demand), exact_(exact), model_(*pieces.model) {}

    numerics::ConstraintRow run() {
        row_.name = demand_.name;
        row_.lower = least(demand_);
        row_.upper = demand_.upper;
        row_.aim = demand_.aim;
        row_.middle_alone = middle_alone(demand_);
        row_.activities.resize(pieces_.demands.works.size());
        row_.bins = demand_.by_stack;
        const Form empty = model_.ties().adjusted(empty_seats(pieces_, demand_));
        row_.gap = stack::value(empty, model_.columns().middle);
        for (Iterator it(empty.sensitivities); it; ++it)
            says_[static_cast<int>(it.index())].sensitivity += it.value();
        for (std::size_t w = 0; w < row_.activities.size(); ++w)
            work(w);
        for (const auto& [size, says] : says_)
            weigh(size, says);
        if (row_.middle_alone)
            for (numerics::Effect& effect : row_.activities)
                effect.done = 0.0;
        if (rss()) finish_rss();
        return std::move(row_);
    }

private:
    [[nodiscard]] bool rss() const { return pieces_.judging.judge == stack::Judge::rss; }
    [[nodiscard]] double unit(double half_width) const {
        return rss() ? half_width * half_width : half_width;
    }

    void work(std::size_t w) {
        const double times = demand_.by_work[w];
        numerics::Effect& effect = row_.activities[w];
        const NewLength* const length = new_length(pieces_.demands.works[w]);
        if (length == nullptr) {
            effect.per_amount = times;
            return;
        }
        if (times == 0.0) return;
        const Form old = model_.ties().adjusted(dropped(demand_, *length));
        effect.per_amount = times * length->by_depth;
        effect.when_done = times * (length->start - stack::value(old, model_.columns().middle));
        effect.done = unit(std::abs(times) * length->holds);
        for (Iterator it(old.sensitivities); it; ++it)
            says_[static_cast<int>(it.index())].changes[w] -= times * it.value();
    }

    void weigh(int size, const Says& says) {
        if (row_.middle_alone) return;
        if (exact_ && model_.ties().tied(size)) return;
        const double half = model_.columns().half_width[size];
        if (half == 0.0) return;
        const auto width = [&](double sensitivity) {
            return std::abs(sensitivity) < kCancelled ? 0.0 : unit(std::abs(sensitivity) * half);
        };
        if (says.changes.empty()) {
            row_.fixed_half_width += width(says.sensitivity);
        } else if (says.changes.size() == 1) {
            const auto& [w, change] = *says.changes.begin();
            row_.activities[w].not_done += width(says.sensitivity);
            row_.activities[w].done += width(says.sensitivity + change);
        } else {
            numerics::SharedTerm shared{.half_width = half,
                                        .sensitivity = says.sensitivity,
                                        .change = std::vector<double>(row_.activities.size(), 0.0)};
            for (const auto& [w, change] : says.changes)
                shared.change[w] = change;
            row_.shared.push_back(std::move(shared));
        }
    }

    // Squares were added up.
    void finish_rss() {
        row_.fixed_half_width = std::sqrt(row_.fixed_half_width);
        for (numerics::Effect& effect : row_.activities) {
            effect.not_done = std::sqrt(effect.not_done);
            effect.done = std::sqrt(effect.done);
        }
    }

    const Pieces& pieces_;
    const PlanDemand& demand_;
    bool exact_;
    const stack::Model& model_;
    numerics::ConstraintRow row_;
    std::map<int, Says> says_;
};

stack::Range plain(const stack::Model& model, const Form& form) {
    stack::Range range{.lo = form.constant, .hi = form.constant};
    for (Iterator it(form.sensitivities); it; ++it) {
        const double middle = it.value() * model.columns().middle[it.index()];
        const double half = std::abs(it.value()) * model.columns().half_width[it.index()];
        range.lo += middle - half;
        range.hi += middle + half;
    }
    return range;
}

}  // namespace

Spreading Pieces::settled(const PlanDemand& demand, const numerics::Selection& selection) const {
    Spreading value;
    FormBuilder builder;
    builder.add(demand.now, 1.0);
    for (std::size_t w = 0; w < demand.by_work.size(); ++w) {
        const NewLength* const length = new_length(demands.works[w]);
        if (length == nullptr || !selection.done[w] || demand.by_work[w] == 0.0) continue;
        builder.add(dropped(demand, *length), -demand.by_work[w]);
        value.added.push_back({.sensitivity = demand.by_work[w], .size = held(*length)});
    }
    for (std::size_t q = 0; q < demand.by_stack.size(); ++q) {
        if (demand.by_stack[q] == 0.0) continue;
        std::vector<bool> kept(demands.seats[q].pieces.size(), false);
        for (const std::size_t kind : selection.stacks[q]) {
            if (stock[kind].fitted) {
                kept[*stock[kind].fitted] = true;
            } else {
                value.added.push_back(
                    {.sensitivity = demand.by_stack[q], .size = stock[kind].given.size});
            }
        }
        for (std::size_t i = 0; i < kept.size(); ++i)
            if (!kept[i]) builder.add(demands.seats[q].pieces[i], -demand.by_stack[q]);
    }
    value.form = std::move(builder).build(demand.now.sensitivities.size());
    value.form.sensitivities.prune(1.0, kCancelled);
    return value;
}

double Pieces::middle(const Spreading& value) const {
    double middle = stack::value(model->ties().adjusted(value.form), model->columns().middle);
    for (const Spreading::Added& each : value.added)
        middle += each.sensitivity * each.size.middle();
    return middle;
}

stack::Range Pieces::worst(const Spreading& value) const {
    stack::Range range = model->ties().extremes(value.form, model->columns());
    for (const Spreading::Added& each : value.added) {
        const double centre = each.sensitivity * each.size.middle();
        const double half = std::abs(each.sensitivity) * each.size.half_width();
        range.lo += centre - half;
        range.hi += centre + half;
    }
    return range;
}

stack::Range Pieces::rss(const Spreading& value) const {
    const Form adjusted = model->ties().adjusted(value.form);
    double squares = adjusted.sensitivities.cwiseProduct(model->columns().half_width).squaredNorm();
    for (const Spreading::Added& each : value.added) {
        const double half = each.sensitivity * each.size.half_width();
        squares += half * half;
    }
    const double centre = middle(value);
    const double half = judging.inflate * std::sqrt(squares);
    const stack::Range range{.lo = centre - half, .hi = centre + half};
    if (!model->ties().spreads(value.form, model->columns())) return range;
    return stack::within_worst(range, worst(value));
}

stack::Range Pieces::range(const Spreading& value) const {
    return judging.judge == stack::Judge::worst ? worst(value) : rss(value);
}

double Pieces::gained(const PlanDemand& demand, const numerics::Selection& selection,
                      const std::vector<double>& depths) const {
    double gained = 0.0;
    for (std::size_t w = 0; w < demand.by_work.size(); ++w) {
        if (!selection.done[w]) continue;
        const NewLength* const length = new_length(demands.works[w]);
        gained += demand.by_work[w] * (length == nullptr ? 1.0 : length->by_depth) * depths[w];
    }
    return gained;
}

bool Pieces::tied(const PlanDemand& demand) const {
    const auto any = [&](const Form& form) {
        for (Iterator it(form.sensitivities); it; ++it)
            if (model->ties().tied(static_cast<int>(it.index()))) return true;
        return false;
    };
    if (any(demand.now)) return true;
    for (std::size_t w = 0; w < demand.by_work.size(); ++w) {
        const NewLength* const length = new_length(demands.works[w]);
        if (length != nullptr && demand.by_work[w] != 0.0 && any(dropped(demand, *length)))
            return true;
    }
    for (std::size_t q = 0; q < demand.by_stack.size(); ++q) {
        const auto& laid = demands.seats[q].pieces;
        if (demand.by_stack[q] != 0.0 && std::any_of(laid.begin(), laid.end(), any)) return true;
    }
    return false;
}

numerics::Allowed Pieces::limits(const PlanDemand& demand,
                                 const numerics::Selection& selection) const {
    const double lower = least(demand);
    if (middle_alone(demand)) return {.lower = lower, .upper = demand.upper};
    const Spreading value = settled(demand, selection);
    const double centre = middle(value);
    if (judging.by_odds) {
        // Of several demands that must hold together, those that can be helped are to be likelier.
        constexpr double kHalf = 0.5;
        const bool sharing = demand.together && !immovable(demand);
        const double share =
            demand.drawn ? judging.share : (sharing ? std::min(judging.share, 1.0) : 1.0);
        const double fails = std::min((1.0 - judging.odds_level) * share, kHalf);
        const stack::Range shifts =
            judging.by_odds(*model, value, {.lo = lower, .hi = demand.upper}, 1.0 - fails);
        return {.lower = centre + shifts.lo, .upper = centre + shifts.hi};
    }
    const stack::Range judged = range(value);
    return {.lower = lower + (centre - judged.lo), .upper = demand.upper - (judged.hi - centre)};
}

double Pieces::slack(const PlanDemand& demand, const numerics::Selection& selection,
                     const std::vector<double>& depths) const {
    const numerics::Allowed allowed = limits(demand, selection);
    const double centre = middle(settled(demand, selection)) + gained(demand, selection, depths);
    return std::min(centre - allowed.lower, allowed.upper - centre);
}

bool immovable(const PlanDemand& demand) {
    const auto none = [](double times) { return times == 0.0; };
    return std::all_of(demand.by_work.begin(), demand.by_work.end(), none) &&
           std::all_of(demand.by_stack.begin(), demand.by_stack.end(), none);
}

numerics::ConstraintRow row_of(const Pieces& pieces, const PlanDemand& demand, bool exact,
                               bool open) {
    numerics::ConstraintRow row = RowMaker(pieces, demand, exact).run();
    if (open) {
        row.judged_lower = row.lower;
        row.judged_upper = row.upper;
        row.lower = -numerics::kInfinity;
        row.upper = numerics::kInfinity;
    }
    return row;
}

stack::Range reach(const Pieces& pieces, const numerics::Problem& problem,
                   const PlanDemand& demand) {
    stack::Range range = plain(*pieces.model, demand.now);
    const auto widen = [&range](double low, double high) {
        range.lo += std::min(low, 0.0);
        range.hi += std::max(high, 0.0);
    };
    for (std::size_t w = 0; w < demand.by_work.size(); ++w) {
        const double times = demand.by_work[w];
        if (times == 0.0) continue;
        const double most = problem.activities[w].at_most;
        const NewLength* const length = new_length(pieces.demands.works[w]);
        if (length == nullptr) {
            widen(std::min(0.0, times * most), std::max(0.0, times * most));
            continue;
        }
        const stack::Range old = plain(*pieces.model, dropped(demand, *length));
        const double holds = demand.diameters ? 0.0 : length->holds;
        const double ends[] = {length->start, length->start + length->by_depth * most};
        const double least = std::min(ends[0], ends[1]) - holds - old.hi;
        const double greatest = std::max(ends[0], ends[1]) + holds - old.lo;
        widen(std::min(times * least, times * greatest), std::max(times * least, times * greatest));
    }
    for (std::size_t q = 0; q < demand.by_stack.size(); ++q) {
        double tallest = 0.0;
        for (const std::size_t kind : problem.bins[q].stock)
            tallest = std::max(tallest, pieces.stock[kind].given.size.upper);
        tallest *= problem.bins[q].at_most;
        const double times = demand.by_stack[q];
        for (const Form& piece : pieces.demands.seats[q].pieces) {
            const double out = plain(*pieces.model, piece).hi;
            widen(std::min(0.0, -times * out), std::max(0.0, -times * out));
        }
        widen(std::min(0.0, times * tallest), std::max(0.0, times * tallest));
    }
    return range;
}

}  // namespace trialfit::plan
