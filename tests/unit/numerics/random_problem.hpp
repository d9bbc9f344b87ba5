// SPDX-License-Identifier: MIT
// Problems at random, the same on every machine, and every plan of a small one tried in turn.
#pragma once

#include <trialfit/numerics/planner/solve.hpp>

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdint>
#include <limits>
#include <map>
#include <string>
#include <utility>
#include <vector>

namespace trialfit::testing {

class Dice {
public:
    explicit Dice(std::uint64_t seed) : state_(seed * 2654435761U + 1) {}
    double real(double least, double most) {
        return least + (most - least) * static_cast<double>(next() >> 11) * 0x1p-53;
    }
    int whole(int least, int most) {
        return least + static_cast<int>(next() % static_cast<std::uint64_t>(most - least + 1));
    }
    bool chance(double of) { return real(0.0, 1.0) < of; }

private:
    // splitmix64
    std::uint64_t next() {
        std::uint64_t z = (state_ += 0x9e3779b97f4a7c15U);
        z = (z ^ (z >> 30U)) * 0xbf58476d1ce4e5b9U;
        z = (z ^ (z >> 27U)) * 0x94d049bb133111ebU;
        return z ^ (z >> 31U);
    }
    std::uint64_t state_;
};

inline double hundredths(double value) {
    return std::round(value * 100.0) / 100.0;
}

struct Shape {
    int cuts = 2;
    int seats = 2;
    int rows = 4;
    int kinds = 3;
};

inline numerics::ConstraintRow random_row(Dice& dice, const numerics::Problem& problem) {
    numerics::ConstraintRow row;
    row.lower = 0.3;
    row.upper = dice.chance(0.2) ? std::numeric_limits<double>::infinity()
                                 : hundredths(dice.real(0.9, 1.5));
    row.gap = hundredths(dice.real(-1.5, 2.0));
    row.fixed_half_width = dice.real(0.01, 0.08);
    for (std::size_t c = 0; c < problem.activities.size(); ++c) {
        numerics::Effect effect;
        effect.per_amount = dice.whole(-1, 1);
        const double by = std::abs(effect.per_amount);
        effect.when_done = dice.chance(0.3) ? effect.per_amount * dice.real(-0.05, 0.05) : 0.0;
        effect.not_done = by * dice.real(0.05, 0.2);
        effect.done = by * dice.real(0.01, 0.04);
        row.activities.push_back(effect);
    }
    for (std::size_t q = 0; q < problem.bins.size(); ++q)
        row.bins.push_back(dice.whole(-1, 1));
    if (dice.chance(0.25) && problem.activities.size() > 1) {
        numerics::SharedTerm size{dice.real(0.02, 0.1), 1.0, {}};
        for (std::size_t c = 0; c < problem.activities.size(); ++c)
            size.change.push_back(dice.whole(-1, 0));
        row.shared.push_back(size);
    }
    return row;
}

/// Moves the rows so that one plan picked at random meets them all.
inline void hide_a_plan(Dice& dice, numerics::Problem& problem) {
    std::vector<bool> made;
    std::vector<double> depths;
    for (const numerics::Activity& cut : problem.activities) {
        made.push_back(dice.chance(0.5));
        depths.push_back(dice.real(cut.at_least, cut.at_most));
    }
    std::vector<const numerics::StockItem*> fitted;
    for (const numerics::Bin& seat : problem.bins) {
        const bool any = seat.at_least > 0 || (seat.at_most > 0 && dice.chance(0.6));
        fitted.push_back(any ? &problem.stock[seat.stock[static_cast<std::size_t>(
                                   dice.whole(0, static_cast<int>(seat.stock.size()) - 1))]]
                             : nullptr);
    }
    for (numerics::ConstraintRow& row : problem.rows) {
        double gain = 0.0;
        double margin = row.fixed_half_width;
        for (std::size_t c = 0; c < made.size(); ++c) {
            const numerics::Effect& effect = row.activities[c];
            if (made[c]) gain += effect.when_done + effect.per_amount * depths[c];
            margin += made[c] ? effect.done : effect.not_done;
        }
        for (const numerics::SharedTerm& size : row.shared)
            margin += 2.0 * size.half_width;
        for (std::size_t q = 0; q < fitted.size(); ++q) {
            if (fitted[q] == nullptr) continue;
            gain += row.bins[q] * fitted[q]->thickness;
            margin += std::abs(row.bins[q]) * fitted[q]->half_width;
        }
        const double room = dice.real(0.05, 0.5);
        if (std::isfinite(row.upper)) row.upper = row.lower + 2.0 * margin + room;
        row.gap = row.lower + margin + dice.real(0.0, room) - gain;
    }
}

inline numerics::Problem random_problem(Dice& dice, const Shape& shape) {
    numerics::Problem problem;
    for (int c = 0; c < shape.cuts; ++c) {
        numerics::Activity cut;
        cut.name = "cut " + std::to_string(c);
        cut.at_most = hundredths(dice.real(0.5, 1.8));
        if (dice.chance(0.3)) cut.at_least = 0.2;
        cut.cost = hundredths(dice.real(1.0, 6.0));
        cut.per_amount = hundredths(dice.real(0.1, 2.0));
        problem.activities.push_back(cut);
    }
    for (int k = 0; k < shape.kinds; ++k) {
        numerics::StockItem shim;
        shim.thickness = hundredths(dice.real(0.05, 0.9));
        shim.half_width = dice.real(0.002, 0.02);
        shim.price = hundredths(dice.real(0.1, 0.6));
        if (dice.chance(0.6)) shim.pieces = dice.whole(1, 3);
        problem.stock.push_back(shim);
    }
    for (int q = 0; q < shape.seats; ++q) {
        numerics::Bin seat;
        seat.name = "seat " + std::to_string(q);
        for (std::size_t k = 0; k < problem.stock.size(); ++k) {
            if (dice.chance(0.9)) seat.stock.push_back(k);
        }
        seat.at_most = seat.stock.empty() ? 0 : dice.whole(0, 2);
        if (seat.at_most > 0 && dice.chance(0.15)) seat.at_least = 1;
        problem.bins.push_back(seat);
    }
    for (int r = 0; r < shape.rows; ++r)
        problem.rows.push_back(random_row(dice, problem));
    if (dice.chance(0.8)) hide_a_plan(dice, problem);
    return problem;
}

/// Half-plane a.x >= b over the depths of the cuts made.
struct HalfPlane {
    std::vector<double> a;
    double b = 0.0;
};

/// Least c.x over an intersection of half-planes with up to three unknowns, by trying every vertex;
/// infinity when it is empty. (Bounded: the depths' own limits are among the half-planes.)
inline double least_at_vertices(const std::vector<HalfPlane>& planes,
                                const std::vector<double>& c) {
    const std::size_t n = c.size();
    double least = std::numeric_limits<double>::infinity();
    std::vector<double> x(n, 0.0);
    const auto offer = [&] {
        double value = 0.0;
        for (std::size_t i = 0; i < n; ++i)
            value += c[i] * x[i];
        if (value >= least) return;
        for (const HalfPlane& plane : planes) {
            double left = 0.0;
            for (std::size_t i = 0; i < n; ++i)
                left += plane.a[i] * x[i];
            if (left < plane.b - 1e-9) return;
        }
        least = value;
    };
    if (n == 0) {
        offer();
        return least;
    }
    const auto det2 = [](double a, double b, double d, double e) { return a * e - b * d; };
    for (std::size_t i = 0; i < planes.size(); ++i) {
        const auto& p = planes[i];
        if (n == 1) {
            if (p.a[0] == 0.0) continue;
            x[0] = p.b / p.a[0];
            offer();
            continue;
        }
        for (std::size_t j = i + 1; j < planes.size(); ++j) {
            const auto& q = planes[j];
            if (n == 2) {
                const double det = det2(p.a[0], p.a[1], q.a[0], q.a[1]);
                if (std::abs(det) < 1e-12) continue;
                x = {det2(p.b, p.a[1], q.b, q.a[1]) / det, det2(p.a[0], p.b, q.a[0], q.b) / det};
                offer();
                continue;
            }
            for (std::size_t k = j + 1; k < planes.size(); ++k) {
                const auto& r = planes[k];
                const auto det3 = [&](const std::array<const HalfPlane*, 3>& m, std::size_t swap) {
                    const auto at = [&](std::size_t row, std::size_t column) {
                        return column == swap ? m[row]->b : m[row]->a[column];
                    };
                    return at(0, 0) * det2(at(1, 1), at(1, 2), at(2, 1), at(2, 2)) -
                           at(0, 1) * det2(at(1, 0), at(1, 2), at(2, 0), at(2, 2)) +
                           at(0, 2) * det2(at(1, 0), at(1, 1), at(2, 0), at(2, 1));
                };
                const std::array<const HalfPlane*, 3> m{&p, &q, &r};
                const double det = det3(m, 3);
                if (std::abs(det) < 1e-12) continue;
                x = {det3(m, 0) / det, det3(m, 1) / det, det3(m, 2) / det};
                offer();
            }
        }
    }
    return least;
}

/// Every stack that a seat could take, as pieces of each kind.
inline std::vector<std::vector<int>> every_stack(const numerics::Problem& problem,
                                                 const numerics::Bin& seat) {
    std::vector<std::vector<int>> stacks{std::vector<int>(problem.stock.size(), 0)};
    for (const std::size_t kind : seat.stock) {
        const std::size_t known = stacks.size();
        for (std::size_t i = 0; i < known; ++i) {
            for (int n = 1; n <= seat.at_most; ++n) {
                stacks.push_back(stacks[i]);
                stacks.back()[kind] = n;
            }
        }
    }
    std::erase_if(stacks, [&](const std::vector<int>& stack) {
        int count = 0;
        for (const int n : stack)
            count += n;
        return count > seat.at_most || count < seat.at_least;
    });
    return stacks;
}

/// The least cost for every kind that has a plan at all (bit c: cut c made; bit 16 + q: seat q
/// carries shims).
class EveryPlan {
public:
    explicit EveryPlan(const numerics::Problem& problem) : problem_(problem) {
        for (const numerics::Bin& seat : problem.bins)
            stacks_.push_back(every_stack(problem, seat));
        chosen_.resize(problem.bins.size());
        pick(0);
    }
    [[nodiscard]] const std::map<unsigned, double>& least_costs() const { return least_; }

    /// Costs of the cheapest and of the next-cheapest that do not only add to a cheaper one's kind.
    /// Where the cheapest adds nothing (here: costs nothing), there is no other.
    [[nodiscard]] std::vector<double> shown(std::size_t top) const {
        std::vector<std::pair<double, unsigned>> order;
        for (const auto& [set, cost] : least_)
            order.emplace_back(cost, set);
        std::sort(order.begin(), order.end());
        std::vector<double> costs;
        std::vector<unsigned> sets;
        for (const auto& [cost, set] : order) {
            bool adds = false;
            for (const unsigned cheaper : sets)
                adds = adds || (set & cheaper) == cheaper;
            if (adds || costs.size() == top) continue;
            if (!costs.empty() && costs.front() <= 1e-9) break;
            sets.push_back(set);
            costs.push_back(cost);
        }
        return costs;
    }

private:
    void pick(std::size_t seat) {
        if (seat < stacks_.size()) {
            for (const auto& stack : stacks_[seat]) {
                chosen_[seat] = &stack;
                pick(seat + 1);
            }
            return;
        }
        double price = 0.0;
        unsigned shimmed = 0;
        for (std::size_t q = 0; q < chosen_.size(); ++q)
            for (const int n : *chosen_[q])
                if (n > 0) shimmed |= 1U << (16 + q);
        for (std::size_t k = 0; k < problem_.stock.size(); ++k) {
            int used = 0;
            for (const auto* stack : chosen_)
                used += (*stack)[k];
            if (problem_.stock[k].pieces && used > *problem_.stock[k].pieces) return;
            price += used * problem_.stock[k].price;
        }
        for (unsigned set = 0; set < (1U << problem_.activities.size()); ++set)
            try_cuts(set, shimmed, price);
    }

    void try_cuts(unsigned set, unsigned shimmed, double price) {
        std::vector<std::size_t> made;
        std::vector<double> per_mm;
        double cost = price;
        for (std::size_t c = 0; c < problem_.activities.size(); ++c) {
            if ((set >> c & 1U) == 0) continue;
            made.push_back(c);
            per_mm.push_back(problem_.activities[c].per_amount);
            cost += problem_.activities[c].cost;
        }
        std::vector<HalfPlane> planes;
        for (std::size_t i = 0; i < made.size(); ++i) {
            std::vector<double> unit(made.size(), 0.0);
            unit[i] = 1.0;
            planes.push_back({unit, problem_.activities[made[i]].at_least});
            unit[i] = -1.0;
            planes.push_back({unit, -problem_.activities[made[i]].at_most});
        }
        for (const numerics::ConstraintRow& row : problem_.rows)
            add_row(row, set, made, planes);
        cost += least_at_vertices(planes, per_mm);
        if (std::isinf(cost)) return;
        const auto known = least_.find(set | shimmed);
        if (known == least_.end() || cost < known->second) least_[set | shimmed] = cost;
    }

    void add_row(const numerics::ConstraintRow& row, unsigned set,
                 const std::vector<std::size_t>& made, std::vector<HalfPlane>& planes) const {
        double middle = row.gap;
        double sum = row.fixed_half_width;
        double squares = row.fixed_half_width * row.fixed_half_width;
        const auto spread = [&](double half_width) {
            sum += std::abs(half_width);
            squares += half_width * half_width;
        };
        for (std::size_t c = 0; c < problem_.activities.size(); ++c) {
            const bool is_made = (set >> c & 1U) != 0;
            spread(is_made ? row.activities[c].done : row.activities[c].not_done);
            if (is_made) middle += row.activities[c].when_done;
        }
        for (const numerics::SharedTerm& size : row.shared) {
            double sensitivity = size.sensitivity;
            for (const std::size_t c : made)
                sensitivity += size.change[c];
            spread(sensitivity * size.half_width);
        }
        for (std::size_t q = 0; q < problem_.bins.size(); ++q) {
            for (std::size_t k = 0; k < problem_.stock.size(); ++k) {
                for (int n = 0; n < (*chosen_[q])[k]; ++n) {
                    middle += row.bins[q] * problem_.stock[k].thickness;
                    spread(row.bins[q] * problem_.stock[k].half_width);
                }
            }
        }
        const double margin = problem_.judge == numerics::MarginRule::worst_case
                                  ? sum
                                  : problem_.inflation * std::sqrt(squares);
        std::vector<double> gains;
        gains.reserve(made.size());
        for (const std::size_t c : made)
            gains.push_back(row.activities[c].per_amount);
        if (!std::isinf(row.lower)) planes.push_back({gains, row.lower + margin - middle});
        for (double& gain : gains)
            gain = -gain;
        if (!std::isinf(row.upper)) planes.push_back({gains, middle + margin - row.upper});
    }

    const numerics::Problem& problem_;
    std::vector<std::vector<std::vector<int>>> stacks_;
    std::vector<const std::vector<int>*> chosen_;
    std::map<unsigned, double> least_;
};

}  // namespace trialfit::testing
