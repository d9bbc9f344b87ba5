// SPDX-License-Identifier: MIT
// The part of Relaxation that deals with one node; relaxation.cpp lays out the rows.
#include <trialfit/numerics/planner/relaxation.hpp>

#include <algorithm>
#include <cmath>

namespace trialfit::numerics {

namespace {
constexpr std::size_t kMostNodeIterations = 2000;
}  // namespace

void Relaxation::fit_hull(const SearchNode& node, std::size_t bin) {
    std::vector<HullPoint> points;
    points.reserve(node.stacks[bin].size());
    least_spread_[bin] = kInfinity;
    for (const std::uint32_t each : node.stacks[bin]) {
        const StackPoint& point = model_.choices[bin].points[each];
        points.push_back({point.thickness, values_[bin][each]});
        least_spread_[bin] =
            std::min(least_spread_[bin], point.spread - spread_slope_[bin] * point.thickness);
    }
    hulls_[bin] = lower_hull(points);
}

void Relaxation::fit_margins(SearchNode& node) {
    const bool rss = model_.problem->judge == MarginRule::rss;
    for (std::size_t r = 0; r < model_.rows; ++r) {
        const double shared = model_.shared_units(r, node.states).least;
        Chord chord;
        if (rss) {
            const Interval units = units_range(model_, r, node);
            const double least = model_.margin(units.least);
            chord.slope = units.most - units.least > 1e-15
                              ? (model_.margin(units.most) - least) / (units.most - units.least)
                              : 0.0;
            chord.at_zero = least - chord.slope * units.least;
        }
        write_gap_rows(r, chord, shared);
    }
    if (!rss && node.program.columns() != 0) return;
    Simplex program = make_program();
    if (node.program.columns() != 0) program.take_basis(node.program);
    node.program = program;
}

double Relaxation::row_shift(const LinearRow& row) const {
    double shift = 0.0;
    for (std::size_t q = 0; q < model_.bins; ++q) {
        shift += row.thickness[q] * hulls_[q].start +
                 row.spread[q] * (least_spread_[q] + spread_slope_[q] * hulls_[q].start);
    }
    return shift;
}

// Puts the node's bounds on its program; returns the part of the value that no column carries.
double Relaxation::apply(SearchNode& node) {
    if (margins_vary_) fit_margins(node);
    if (node.program.columns() == 0) node.program = make_program();
    Simplex& program = node.program;
    for (std::size_t column = 0; column < costs_.size(); ++column) {
        const bool is_segment = column >= segment(0, 0) && column < loose(0);
        if (is_segment) continue;
        program.set_cost(column, costs_[column]);
        program.set_bounds(column, 0.0, greatest_[column]);
    }
    for (std::size_t c = 0; c < model_.activities; ++c) {
        const bool made = node.states[c] == ActivityState::done;
        const bool may = node.states[c] != ActivityState::not_done;
        program.set_bounds(c, made ? 1.0 : 0.0, may ? 1.0 : 0.0);
        program.set_bounds(model_.activities + c, made ? node.amounts[c].least : 0.0,
                           may ? node.amounts[c].most : 0.0);
    }
    double constant = 0.0;
    for (std::size_t q = 0; q < model_.bins; ++q) {
        fit_hull(node, q);
        constant += hulls_[q].value;
        for (std::size_t each = 0; each < kSegments; ++each) {
            program.set_cost(segment(q, each), hulls_[q].slope[each]);
            program.set_bounds(segment(q, each), 0.0, hulls_[q].length[each]);
        }
    }
    bound_rows(program);
    return constant;
}

// Every row needs both bounds: the one it has no limit for is put out of reach.
void Relaxation::bound_rows(Simplex& program) {
    for (std::size_t i = reach_.size(); i < rows_.size(); ++i) {
        double reach = 1.0;
        for (std::size_t column = 0; column < costs_.size(); ++column)
            reach += std::abs(rows_[i].columns[column]) * greatest_[column];
        for (std::size_t q = 0; q < model_.bins; ++q) {
            const double by =
                std::abs(rows_[i].thickness[q]) + std::abs(rows_[i].spread[q] * spread_slope_[q]);
            reach += by * model_.choices[q].points.back().thickness;
        }
        // A chord's slope, and with it a column of a gap row, can grow as a node narrows.
        reach_.push_back(margins_vary_ && i < 2 * model_.rows ? 1e3 * reach : reach);
    }
    for (std::size_t i = 0; i < rows_.size(); ++i) {
        const double limit = rows_[i].limit - row_shift(rows_[i]);
        if (rows_[i].sense == Sense::at_least) {
            const double low = std::max(limit, -reach_[i]);
            program.set_bounds(costs_.size() + i, low, std::max(low, reach_[i]));
        } else {
            const double high = std::min(limit, reach_[i]);
            program.set_bounds(costs_.size() + i, std::min(high, -reach_[i]), high);
        }
    }
}

RelaxationResult Relaxation::read(SearchNode& node, double cutoff) {
    const double constant = apply(node);
    RelaxationResult reading;
    reading.outcome = node.program.solve(cutoff - constant, kMostNodeIterations);
    node.bound = std::max(node.bound, node.program.objective() + constant);
    if (reading.outcome == Simplex::Outcome::optimal) {
        reading.struck_out = price_out(node, cutoff);
        if (node.bound > cutoff) reading.outcome = Simplex::Outcome::cutoff;
    }
    return reading;
}

double Relaxation::probe(const SearchNode& node, std::size_t activity, ActivityState state,
                         double cutoff, std::size_t iterations) const {
    Simplex program = node.program;
    if (state == ActivityState::done) {
        program.set_bounds(activity, 1.0, 1.0);
        program.set_bounds(model_.activities + activity, node.amounts[activity].least,
                           node.amounts[activity].most);
    } else {
        program.set_bounds(activity, 0.0, 0.0);
        program.set_bounds(model_.activities + activity, 0.0, 0.0);
    }
    double constant = 0.0;
    for (const Hull& hull : hulls_)
        constant += hull.value;
    const Simplex::Outcome outcome = program.solve(cutoff - constant, iterations);
    return outcome == Simplex::Outcome::infeasible ? kInfinity : program.objective() + constant;
}

std::vector<double> Relaxation::multipliers(const SearchNode& node) const {
    std::vector<double> multipliers(rows_.size());
    for (std::size_t i = 0; i < rows_.size(); ++i) {
        const double each = node.program.reduced_cost(costs_.size() + i);
        const bool wrong_way = rows_[i].sense == Sense::at_least ? each < 0.0 : each > 0.0;
        multipliers[i] = wrong_way || !std::isfinite(rows_[i].limit) ? 0.0 : each;
    }
    return multipliers;
}

// The Lagrangian of the node with the program's multipliers, reckoned from the data and over the
// points themselves: as good a bound as the program's at least, and free of its rounding.
Relaxation::Prices Relaxation::price(const SearchNode& node) const {
    const std::vector<double> by = multipliers(node);
    std::vector<double> reduced(costs_);
    Prices prices;
    for (std::size_t i = 0; i < rows_.size(); ++i) {
        if (by[i] == 0.0) continue;
        prices.bound += by[i] * rows_[i].limit;
        for (std::size_t column = 0; column < reduced.size(); ++column)
            reduced[column] -= by[i] * rows_[i].columns[column];
    }
    for (std::size_t column = loose(0); column < reduced.size(); ++column)
        prices.bound += std::min(reduced[column], 0.0) * greatest_[column];
    for (std::size_t c = 0; c < model_.activities; ++c) {
        const double per_amount = reduced[model_.activities + c];
        const Interval& amount = node.amounts[c];
        prices.made.push_back(reduced[c] +
                              per_amount * (per_amount > 0.0 ? amount.least : amount.most));
        if (node.states[c] == ActivityState::done) prices.bound += prices.made[c];
        if (node.states[c] == ActivityState::open) prices.bound += std::min(prices.made[c], 0.0);
    }
    price_bins(node, by, prices);
    return prices;
}

void Relaxation::price_bins(const SearchNode& node, const std::vector<double>& by,
                            Prices& prices) const {
    prices.worth.resize(model_.bins);
    prices.least.assign(model_.bins, kInfinity);
    for (std::size_t q = 0; q < model_.bins; ++q) {
        double per_thickness = 0.0;
        double per_spread = 0.0;
        for (std::size_t i = 0; i < rows_.size(); ++i) {
            per_thickness -= by[i] * rows_[i].thickness[q];
            per_spread -= by[i] * rows_[i].spread[q];
        }
        for (const std::uint32_t each : node.stacks[q]) {
            const StackPoint& point = model_.choices[q].points[each];
            const double worth =
                values_[q][each] + per_thickness * point.thickness + per_spread * point.spread;
            prices.worth[q].push_back(worth);
            prices.least[q] = std::min(prices.least[q], worth);
        }
        prices.bound += prices.least[q];
    }
}

// Strikes out every choice that alone takes the Lagrangian above the cutoff.
bool Relaxation::price_out(SearchNode& node, double cutoff) const {
    const Prices prices = price(node);
    node.bound = std::max(node.bound, prices.bound);
    bool struck_out = false;
    for (std::size_t c = 0; c < model_.activities; ++c) {
        if (node.states[c] != ActivityState::open ||
            prices.bound + std::abs(prices.made[c]) <= cutoff)
            continue;
        node.states[c] = prices.made[c] > 0.0 ? ActivityState::not_done : ActivityState::done;
        struck_out = true;
    }
    for (std::size_t q = 0; q < model_.bins; ++q) {
        std::vector<std::uint32_t>& open = node.stacks[q];
        const double others = prices.bound - prices.least[q];
        std::size_t kept = 0;
        for (std::size_t i = 0; i < open.size(); ++i) {
            if (others + prices.worth[q][i] <= cutoff) open[kept++] = open[i];
        }
        if (kept == open.size()) continue;
        open.resize(kept);
        refresh_spread(model_, q, node);
        struck_out = true;
    }
    return struck_out;
}

std::size_t Relaxation::bending_cut(const SearchNode& node) const {
    std::size_t chosen = model_.activities;
    if (!margins_vary_) return chosen;
    double most = 1e-7;
    for (std::size_t r = 0; r < model_.rows; ++r) {
        const ConstraintRow& demand = model_.problem->rows[r];
        double middle = demand.gap;
        double units = model_.fixed[r] + model_.shared_units(r, node.states).least;
        double bend = 0.0;
        std::size_t bends_most = model_.activities;
        for (std::size_t c = 0; c < model_.activities; ++c) {
            const double made = node.program.value(c);
            middle += model_.when_done(r, c) * made +
                      model_.per_amount(r, c) * node.program.value(model_.activities + c);
            units += made > 0.5 ? model_.done(r, c) : model_.not_done(r, c);
            const double by = std::abs(model_.not_done(r, c) - model_.done(r, c));
            if (node.states[c] != ActivityState::open || by <= bend) continue;
            bend = by;
            bends_most = c;
        }
        for (std::size_t q = 0; q < model_.bins; ++q) {
            middle += model_.per_stack(r, q) * thickness(node, q);
            units += model_.stack_weight(r, q) * node.spreads[q].least;
        }
        double lower = demand.lower;
        double upper = demand.upper;
        for (std::size_t each = 0; each < model_.loosenings.size(); ++each) {
            const double by = node.program.value(loose(each));
            middle += model_.loose_gap(r, each) * by;
            lower -= model_.loose_lower(r, each) * by;
            upper += model_.loose_upper(r, each) * by;
        }
        const double broken = model_.margin(units) + std::max(lower - middle, middle - upper);
        if (broken <= most || bends_most == model_.activities) continue;
        most = broken;
        chosen = bends_most;
    }
    return chosen;
}

double Relaxation::thickness(const SearchNode& node, std::size_t bin) const {
    double sum = hulls_[bin].start;
    for (std::size_t each = 0; each < kSegments; ++each)
        sum += node.program.value(segment(bin, each));
    return sum;
}

double Relaxation::hull_value(const SearchNode& node, std::size_t bin) const {
    double sum = hulls_[bin].value;
    for (std::size_t each = 0; each < kSegments; ++each)
        sum += hulls_[bin].slope[each] * node.program.value(segment(bin, each));
    return sum;
}

}  // namespace trialfit::numerics
