// SPDX-License-Identifier: MIT
#include <trialfit/plan/relaxation.hpp>

#include <algorithm>
#include <cmath>
#include <limits>

namespace trialfit::plan {

namespace {
constexpr std::size_t kMostIterations = 2000;
}  // namespace

Relaxation::Relaxation(const Model& model, const Goal& goal,
                       const std::vector<std::vector<std::size_t>>& excluded)
    : model_(model), goal_(goal), hulls_(model.seats) {
    set_values();
    set_columns();
    for (std::size_t r = 0; r < model.rows; ++r) {
        rows_.push_back(blank(Sense::at_least, 0.0));
        rows_.push_back(blank(Sense::at_most, 0.0));
        margins_vary_ = margins_vary_ || !model.problem->rows[r].shared.empty();
    }
    margins_vary_ = margins_vary_ || model.problem->judge == Judge::rss;
    if (!margins_vary_) {
        for (std::size_t r = 0; r < model.rows; ++r)
            write_gap_rows(r, {}, 0.0);
    }
    add_links();
    add_aims();
    for (std::size_t r = 0; r < model.rows; ++r)
        add_knapsack(r);
    for (const auto& set : excluded) {
        LinearRow row = blank(Sense::at_most, static_cast<double>(set.size()) - 1.0);
        for (const std::size_t c : set)
            row.columns[c] = 1.0;
        rows_.push_back(row);
    }
}

Relaxation::LinearRow Relaxation::blank(Sense sense, double limit) const {
    return {std::vector<double>(costs_.size(), 0.0), std::vector<double>(model_.seats, 0.0),
            std::vector<double>(model_.seats, 0.0), sense, limit};
}

void Relaxation::set_values() {
    const std::size_t kinds = model_.problem->stock.size();
    for (const StackChoice& choice : model_.choices) {
        std::vector<double>& values = values_.emplace_back();
        for (const StackPoint& point : choice.points) {
            double order = 0.0;
            for (const std::size_t kind : point.stacks.front())
                order += static_cast<double>(kind + 1) / static_cast<double>(kinds);
            values.push_back(goal_.cost * point.price + goal_.shim * point.count +
                             goal_.order * order);
        }
        const StackPoint& last = choice.points.back();
        spread_slope_.push_back(last.thickness > 0.0 ? last.spread / last.thickness : 0.0);
    }
}

void Relaxation::set_columns() {
    const Problem& problem = *model_.problem;
    costs_.assign(loose(model_.loosenings.size()), 0.0);
    greatest_.assign(costs_.size(), 0.0);
    for (std::size_t c = 0; c < model_.cuts; ++c) {
        costs_[c] = goal_.cost * problem.cuts[c].cost +
                    goal_.order * static_cast<double>(c + 1) / static_cast<double>(model_.cuts);
        costs_[model_.cuts + c] = goal_.cost * problem.cuts[c].per_mm;
        greatest_[c] = 1.0;
        greatest_[model_.cuts + c] = problem.cuts[c].at_most;
    }
    for (std::size_t q = 0; q < model_.seats; ++q) {
        const auto& points = model_.choices[q].points;
        for (std::size_t each = 0; each < kSegments; ++each)
            greatest_[segment(q, each)] = points.back().thickness - points.front().thickness;
    }
    for (std::size_t each = 0; each < model_.loosenings.size(); ++each) {
        costs_[loose(each)] = model_.loosenings[each].cost;
        greatest_[loose(each)] = model_.loosenings[each].at_most;
    }
    if (goal_.aim == 0.0) return;
    for (const Row& row : problem.rows) {
        if (!row.aim) continue;
        costs_.push_back(goal_.aim);
        greatest_.push_back(kInfinity);  // settled in add_aims
    }
}

void Relaxation::write_gap_rows(std::size_t r, const Chord& chord, double shared) {
    const Row& demand = model_.problem->rows[r];
    LinearRow& low = rows_[2 * r];
    LinearRow& high = rows_[2 * r + 1];
    double units = model_.fixed[r] + shared;
    for (std::size_t c = 0; c < model_.cuts; ++c) {
        const double saved = chord.slope * (model_.uncut(r, c) - model_.cut(r, c));
        low.columns[c] = model_.when_cut(r, c) + saved;
        high.columns[c] = model_.when_cut(r, c) - saved;
        low.columns[model_.cuts + c] = high.columns[model_.cuts + c] = model_.per_depth(r, c);
        units += model_.uncut(r, c);
    }
    for (std::size_t q = 0; q < model_.seats; ++q) {
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
    for (std::size_t c = 0; c < model_.cuts; ++c) {
        const Cut& cut = model_.problem->cuts[c];
        LinearRow most = blank(Sense::at_most, 0.0);
        most.columns[model_.cuts + c] = 1.0;
        most.columns[c] = -cut.at_most;
        rows_.push_back(most);
        if (cut.at_least <= 0.0) continue;
        LinearRow least = blank(Sense::at_least, 0.0);
        least.columns[model_.cuts + c] = 1.0;
        least.columns[c] = -cut.at_least;
        rows_.push_back(least);
    }
    for (std::size_t each = 0; each < model_.loosenings.size(); ++each) {
        if (model_.loose_cut[each] == model_.cuts) continue;
        LinearRow row = blank(Sense::at_most, 0.0);
        row.columns[loose(each)] = 1.0;
        row.columns[model_.loose_cut[each]] = -model_.loosenings[each].at_most;
        rows_.push_back(row);
    }
}

// |middle - aim| <= e, as two rows.
void Relaxation::add_aims() {
    if (goal_.aim == 0.0) return;
    std::size_t column = loose(model_.loosenings.size());
    for (std::size_t r = 0; r < model_.rows; ++r) {
        const Row& demand = model_.problem->rows[r];
        if (!demand.aim) continue;
        const double away = *demand.aim - demand.gap;
        double greatest = std::abs(away);
        LinearRow below = blank(Sense::at_least, away);
        LinearRow above = blank(Sense::at_most, away);
        for (std::size_t c = 0; c < model_.cuts; ++c) {
            below.columns[c] = model_.when_cut(r, c);
            below.columns[model_.cuts + c] = model_.per_depth(r, c);
            greatest += std::abs(model_.when_cut(r, c)) +
                        std::abs(model_.per_depth(r, c)) * greatest_[model_.cuts + c];
        }
        for (std::size_t q = 0; q < model_.seats; ++q) {
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

// Units by which a row with nothing cut exceeds what both its limits together leave room for.
double Relaxation::units_short(std::size_t r) const {
    const Row& demand = model_.problem->rows[r];
    for (std::size_t each = 0; each < model_.loosenings.size(); ++each) {
        if (model_.loose_lower(r, each) != 0.0 || model_.loose_upper(r, each) != 0.0)
            return -kInfinity;
    }
    const double room = model_.units((demand.upper - demand.lower) / 2.0 + 1e-9);
    const std::vector<State> open(model_.cuts, State::open);
    double units = model_.fixed[r] + model_.shared_units(r, open).least;
    for (std::size_t c = 0; c < model_.cuts; ++c)
        units += model_.uncut(r, c);
    for (std::size_t q = 0; q < model_.seats; ++q) {
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
    for (std::size_t c = 0; c < model_.cuts; ++c) {
        const double saved = model_.uncut(r, c) - model_.cut(r, c);
        if (saved > 0.0) row.columns[c] = std::min(saved / missing, 1.0);
    }
    rows_.push_back(row);
}

bool Relaxation::add_covers(Node& node) {
    bool added = false;
    for (std::size_t r = 0; r < model_.rows; ++r) {
        const double missing = units_short(r);
        if (!(missing > 0.0)) continue;
        std::vector<std::size_t> order;
        double left = 0.0;
        for (std::size_t c = 0; c < model_.cuts; ++c) {
            const double saved = model_.uncut(r, c) - model_.cut(r, c);
            if (saved <= 0.0) continue;
            order.push_back(c);
            left += saved;
        }
        const auto saved = [&](std::size_t c) { return model_.uncut(r, c) - model_.cut(r, c); };
        std::sort(order.begin(), order.end(),
                  [&](std::size_t a, std::size_t b) { return saved(a) > saved(b); });
        // Of the `upto` that save most, at least n must be cut when the n-1 best of them and all
        // the others are not enough.
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
        for (std::size_t q = 0; q < model_.seats; ++q) {
            for (std::size_t each = 0; each < kSegments; ++each)
                matrix[start + segment(q, each)] =
                    row.thickness[q] + row.spread[q] * spread_slope_[q];
        }
    }
    return {rows_.size(), columns, matrix};
}

Relaxation::Hull Relaxation::hull(const Node& node, std::size_t seat) const {
    struct Corner {
        double thickness, value;
    };
    Hull hull;
    hull.least_spread = kInfinity;
    std::vector<Corner> corners;
    for (const std::uint32_t each : node.stacks[seat]) {
        const StackPoint& point = model_.choices[seat].points[each];
        const Corner next{point.thickness, values_[seat][each]};
        hull.least_spread =
            std::min(hull.least_spread, point.spread - spread_slope_[seat] * point.thickness);
        if (!corners.empty() && next.thickness - corners.back().thickness < 1e-9) {
            if (next.value >= corners.back().value) continue;
            corners.pop_back();
        }
        while (corners.size() > 1) {
            const Corner& a = corners[corners.size() - 2];
            const Corner& b = corners.back();
            if ((b.value - a.value) * (next.thickness - a.thickness) <
                (next.value - a.value) * (b.thickness - a.thickness))
                break;
            corners.pop_back();
        }
        corners.push_back(next);
    }
    hull.start = corners.front().thickness;
    hull.value = corners.front().value;
    if (corners.size() == 1) return hull;
    // Where there are more edges than segments the longest ones are kept: any set of the edges'
    // lines lies under the points.
    std::vector<std::size_t> edges(corners.size() - 1);
    for (std::size_t e = 0; e < edges.size(); ++e)
        edges[e] = e;
    const auto length = [&](std::size_t e) {
        return corners[e + 1].thickness - corners[e].thickness;
    };
    const auto slope = [&](std::size_t e) {
        return (corners[e + 1].value - corners[e].value) / length(e);
    };
    if (edges.size() > kSegments) {
        std::stable_sort(edges.begin(), edges.end(),
                         [&](std::size_t a, std::size_t b) { return length(a) > length(b); });
        edges.resize(kSegments);
        std::sort(edges.begin(), edges.end());
    }
    const auto line = [&](std::size_t e, double at) {
        return corners[e].value + slope(e) * (at - corners[e].thickness);
    };
    hull.value = line(edges.front(), hull.start);
    double from = hull.start;
    for (std::size_t i = 0; i < edges.size(); ++i) {
        double to = corners.back().thickness;
        if (i + 1 < edges.size()) {
            const std::size_t a = edges[i];
            const std::size_t b = edges[i + 1];
            to = a + 1 == b ? corners[b].thickness
                            : from + (line(a, from) - line(b, from)) / (slope(b) - slope(a));
            to = std::clamp(to, from, corners.back().thickness);
        }
        hull.slope[i] = slope(edges[i]);
        hull.length[i] = to - from;
        from = to;
    }
    return hull;
}

void Relaxation::fit_margins(Node& node) {
    const bool rss = model_.problem->judge == Judge::rss;
    for (std::size_t r = 0; r < model_.rows; ++r) {
        const double shared = model_.shared_units(r, node.states).least;
        Chord chord;
        if (rss) {
            const Range units = units_range(model_, r, node);
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
    for (std::size_t q = 0; q < model_.seats; ++q) {
        shift += row.thickness[q] * hulls_[q].start +
                 row.spread[q] * (hulls_[q].least_spread + spread_slope_[q] * hulls_[q].start);
    }
    return shift;
}

// Puts the node's bounds on its program; returns the part of the value that no column carries.
double Relaxation::apply(Node& node) {
    if (margins_vary_) fit_margins(node);
    if (node.program.columns() == 0) node.program = make_program();
    Simplex& program = node.program;
    for (std::size_t column = 0; column < costs_.size(); ++column) {
        const bool is_segment = column >= segment(0, 0) && column < loose(0);
        if (is_segment) continue;
        program.set_cost(column, costs_[column]);
        program.set_bounds(column, 0.0, greatest_[column]);
    }
    for (std::size_t c = 0; c < model_.cuts; ++c) {
        const bool made = node.states[c] == State::cut;
        const bool may = node.states[c] != State::uncut;
        program.set_bounds(c, made ? 1.0 : 0.0, may ? 1.0 : 0.0);
        program.set_bounds(model_.cuts + c, made ? node.depths[c].least : 0.0,
                           may ? node.depths[c].most : 0.0);
    }
    double constant = 0.0;
    for (std::size_t q = 0; q < model_.seats; ++q) {
        hulls_[q] = hull(node, q);
        constant += hulls_[q].value;
        for (std::size_t each = 0; each < kSegments; ++each) {
            program.set_cost(segment(q, each), hulls_[q].slope[each]);
            program.set_bounds(segment(q, each), 0.0, hulls_[q].length[each]);
        }
    }
    for (std::size_t i = reach_.size(); i < rows_.size(); ++i) {
        double reach = 1.0;
        for (std::size_t column = 0; column < costs_.size(); ++column)
            reach += std::abs(rows_[i].columns[column]) * greatest_[column];
        for (std::size_t q = 0; q < model_.seats; ++q) {
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
    return constant;
}

Reading Relaxation::read(Node& node, double cutoff) {
    const double constant = apply(node);
    Reading reading;
    reading.outcome = node.program.solve(cutoff - constant, kMostIterations);
    node.bound = std::max(node.bound, node.program.objective() + constant);
    if (reading.outcome == Simplex::Outcome::optimal) {
        reading.struck_out = price_out(node, cutoff);
        if (node.bound > cutoff) reading.outcome = Simplex::Outcome::cutoff;
    }
    return reading;
}

double Relaxation::probe(const Node& node, std::size_t cut, State state, double cutoff,
                         std::size_t iterations) const {
    Simplex program = node.program;
    if (state == State::cut) {
        program.set_bounds(cut, 1.0, 1.0);
        program.set_bounds(model_.cuts + cut, node.depths[cut].least, node.depths[cut].most);
    } else {
        program.set_bounds(cut, 0.0, 0.0);
        program.set_bounds(model_.cuts + cut, 0.0, 0.0);
    }
    double constant = 0.0;
    for (const Hull& hull : hulls_)
        constant += hull.value;
    const Simplex::Outcome outcome = program.solve(cutoff - constant, iterations);
    return outcome == Simplex::Outcome::infeasible ? kInfinity : program.objective() + constant;
}

std::vector<double> Relaxation::multipliers(const Node& node) const {
    std::vector<double> multipliers(rows_.size());
    for (std::size_t i = 0; i < rows_.size(); ++i) {
        const double each = node.program.reduced_cost(costs_.size() + i);
        const bool wrong_way = rows_[i].sense == Sense::at_least ? each < 0.0 : each > 0.0;
        multipliers[i] = wrong_way || !std::isfinite(rows_[i].limit) ? 0.0 : each;
    }
    return multipliers;
}

std::vector<Relaxation::Price> Relaxation::seat_prices(
    const std::vector<double>& multipliers) const {
    std::vector<Price> prices(model_.seats);
    for (std::size_t i = 0; i < rows_.size(); ++i) {
        if (multipliers[i] == 0.0) continue;
        for (std::size_t q = 0; q < model_.seats; ++q) {
            prices[q].thickness -= multipliers[i] * rows_[i].thickness[q];
            prices[q].spread -= multipliers[i] * rows_[i].spread[q];
        }
    }
    return prices;
}

// The Lagrangian of the node with the program's multipliers, reckoned from the data and over the
// points themselves: as good a bound as the program's at least, free of its rounding, and one that
// says what each single choice would cost.
bool Relaxation::price_out(Node& node, double cutoff) const {
    const std::vector<double> by = multipliers(node);
    std::vector<double> reduced(costs_);
    double bound = 0.0;
    for (std::size_t i = 0; i < rows_.size(); ++i) {
        if (by[i] == 0.0) continue;
        bound += by[i] * rows_[i].limit;
        for (std::size_t column = 0; column < reduced.size(); ++column)
            reduced[column] -= by[i] * rows_[i].columns[column];
    }
    for (std::size_t column = loose(0); column < reduced.size(); ++column)
        bound += std::min(reduced[column], 0.0) * greatest_[column];
    std::vector<double> made(model_.cuts);  // least value of making each cut
    for (std::size_t c = 0; c < model_.cuts; ++c) {
        const double per_depth = reduced[model_.cuts + c];
        made[c] =
            reduced[c] + per_depth * (per_depth > 0.0 ? node.depths[c].least : node.depths[c].most);
        if (node.states[c] == State::cut) bound += made[c];
        if (node.states[c] == State::open) bound += std::min(made[c], 0.0);
    }
    const std::vector<Price> prices = seat_prices(by);
    std::vector<std::vector<double>> worth(model_.seats);
    std::vector<double> least(model_.seats, kInfinity);
    for (std::size_t q = 0; q < model_.seats; ++q) {
        for (const std::uint32_t each : node.stacks[q]) {
            const StackPoint& point = model_.choices[q].points[each];
            worth[q].push_back(values_[q][each] + prices[q].thickness * point.thickness +
                               prices[q].spread * point.spread);
            least[q] = std::min(least[q], worth[q].back());
        }
        bound += least[q];
    }
    node.bound = std::max(node.bound, bound);
    bool struck_out = false;
    for (std::size_t c = 0; c < model_.cuts; ++c) {
        if (node.states[c] != State::open || bound + std::abs(made[c]) <= cutoff) continue;
        node.states[c] = made[c] > 0.0 ? State::uncut : State::cut;
        struck_out = true;
    }
    for (std::size_t q = 0; q < model_.seats; ++q) {
        std::vector<std::uint32_t>& open = node.stacks[q];
        std::size_t kept = 0;
        for (std::size_t i = 0; i < open.size(); ++i) {
            if (bound - least[q] + worth[q][i] <= cutoff) open[kept++] = open[i];
        }
        if (kept == open.size()) continue;
        open.resize(kept);
        refresh_spread(model_, q, node);
        struck_out = true;
    }
    return struck_out;
}

std::size_t Relaxation::bending_cut(const Node& node) const {
    std::size_t chosen = model_.cuts;
    if (!margins_vary_) return chosen;
    double most = 1e-7;
    for (std::size_t r = 0; r < model_.rows; ++r) {
        const Row& demand = model_.problem->rows[r];
        double middle = demand.gap;
        double units = model_.fixed[r] + model_.shared_units(r, node.states).least;
        double bend = 0.0;
        std::size_t bends_most = model_.cuts;
        for (std::size_t c = 0; c < model_.cuts; ++c) {
            const double made = node.program.value(c);
            middle += model_.when_cut(r, c) * made +
                      model_.per_depth(r, c) * node.program.value(model_.cuts + c);
            units += made > 0.5 ? model_.cut(r, c) : model_.uncut(r, c);
            const double by = std::abs(model_.uncut(r, c) - model_.cut(r, c));
            if (node.states[c] != State::open || by <= bend) continue;
            bend = by;
            bends_most = c;
        }
        for (std::size_t q = 0; q < model_.seats; ++q) {
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
        if (broken <= most || bends_most == model_.cuts) continue;
        most = broken;
        chosen = bends_most;
    }
    return chosen;
}

double Relaxation::thickness(const Node& node, std::size_t seat) const {
    double sum = hulls_[seat].start;
    for (std::size_t each = 0; each < kSegments; ++each)
        sum += node.program.value(segment(seat, each));
    return sum;
}

double Relaxation::hull_value(const Node& node, std::size_t seat) const {
    double sum = hulls_[seat].value;
    for (std::size_t each = 0; each < kSegments; ++each)
        sum += hulls_[seat].slope[each] * node.program.value(segment(seat, each));
    return sum;
}

}  // namespace trialfit::plan
