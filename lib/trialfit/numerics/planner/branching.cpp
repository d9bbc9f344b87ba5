// SPDX-License-Identifier: MIT
#include <trialfit/numerics/planner/branching.hpp>
#include <trialfit/numerics/planner/tolerances.hpp>

#include <algorithm>
#include <cmath>
#include <utility>

namespace trialfit::numerics {

namespace {
constexpr double kMismatch = 1e-7;  // a point this near to the program's solution is it
}  // namespace

std::uint32_t Branching::nearest(const SearchNode& node, std::size_t bin) const {
    const double wanted = relaxation_.thickness(node, bin);
    std::uint32_t best = node.stacks[bin].front();
    double least = kInfinity;
    for (const std::uint32_t each : node.stacks[bin]) {
        const double away = std::abs(thickness_of(bin, each) - wanted);
        if (away > least + kSameLength) continue;
        if (away > least - kSameLength &&
            relaxation_.value(bin, each) >= relaxation_.value(bin, best))
            continue;
        least = away;
        best = each;
    }
    return best;
}

double Branching::mismatch(const SearchNode& node, std::size_t bin) const {
    const std::uint32_t point = nearest(node, bin);
    const double away = std::abs(thickness_of(bin, point) - relaxation_.thickness(node, bin));
    return away + std::max(0.0, relaxation_.value(bin, point) - relaxation_.hull_value(node, bin));
}

double Branching::spread_missing(const SearchNode& node, std::size_t bin) const {
    return model_.choices[bin].points[nearest(node, bin)].spread - relaxation_.spread(node, bin);
}

Branches Branching::by_activity(SearchNode node, std::size_t activity, bool likely_made) {
    Branches halves{node, std::move(node)};
    halves.preferred.states[activity] = likely_made ? ActivityState::done : ActivityState::not_done;
    halves.other.states[activity] = likely_made ? ActivityState::not_done : ActivityState::done;
    return halves;
}

// None when all points, or no points, are likely.
template <typename Likely>
std::optional<Branches> Branching::parted(SearchNode& node, std::size_t bin,
                                          Likely preferred) const {
    const auto& open = node.stacks[bin];
    const auto count = std::count_if(open.begin(), open.end(), preferred);
    if (count == 0 || count == std::ssize(open)) return std::nullopt;
    Branches halves{node, std::move(node)};
    std::erase_if(halves.preferred.stacks[bin],
                  [&](std::uint32_t each) { return !preferred(each); });
    std::erase_if(halves.other.stacks[bin], preferred);
    refresh_spread(model_, bin, halves.preferred);
    refresh_spread(model_, bin, halves.other);
    return halves;
}

// Where the nearest points want more pieces of a kind than there are: one of their bins is split
// into what uses the kind and what does not.
std::optional<Branches> Branching::by_shortage(SearchNode& node) const {
    std::vector<std::uint32_t> points;
    for (std::size_t q = 0; q < model_.bins; ++q)
        points.push_back(nearest(node, q));
    for (std::size_t n = 0; n < model_.scarce_kinds.size(); ++n) {
        int left = *model_.problem->stock[model_.scarce_kinds[n]].pieces;
        for (std::size_t q = 0; q < model_.bins; ++q)
            left -= model_.least_use(q, points[q], n);
        if (left >= 0) continue;
        for (std::size_t q = 0; q < model_.bins; ++q) {
            if (model_.least_use(q, points[q], n) == 0) continue;
            const auto uses = [&](std::uint32_t each) { return model_.least_use(q, each, n) > 0; };
            if (auto halves = parted(node, q, uses)) return halves;
        }
    }
    return std::nullopt;
}

// Where the nearest points spread more than the program has them, the bin's range is narrowed from
// its far end, so that the line under its spreads can rise.
std::optional<Branches> Branching::by_spread(SearchNode& node) const {
    std::size_t chosen = model_.bins;
    double most = kMismatch;
    for (std::size_t q = 0; q < model_.bins; ++q) {
        const auto& open = node.stacks[q];
        if (thickness_of(q, open.back()) - thickness_of(q, open.front()) < kSameLength) continue;
        const double by = spread_missing(node, q);
        if (by <= most) continue;
        most = by;
        chosen = q;
    }
    if (chosen == model_.bins) return std::nullopt;
    const double at = relaxation_.thickness(node, chosen);
    const double thinnest = thickness_of(chosen, node.stacks[chosen].front());
    const double thickest = thickness_of(chosen, node.stacks[chosen].back());
    if (at - thinnest > thickest - at) {
        const double middle = std::min((thinnest + at) / 2.0, at - kSameLength);
        return parted(node, chosen,
                      [&](std::uint32_t each) { return thickness_of(chosen, each) > middle; });
    }
    const double middle = std::max((thickest + at) / 2.0, at + kSameLength);
    return parted(node, chosen,
                  [&](std::uint32_t each) { return thickness_of(chosen, each) < middle; });
}

std::optional<Branches> Branching::by_kind(const SearchNode& node, const PlanKind& kind) const {
    for (const std::size_t q : kind.bins) {
        const auto empty = [&](std::uint32_t each) {
            return model_.choices[q].points[each].count == 0;
        };
        SearchNode parted_node = node;
        if (auto halves = parted(parted_node, q, empty)) return halves;
    }
    for (const std::size_t c : kind.activities)
        if (node.states[c] == ActivityState::open) return by_activity(node, c, false);
    return std::nullopt;
}

std::optional<Branches> Branching::by_seat(SearchNode node) const {
    std::size_t chosen = model_.bins;
    double most = -1.0;
    for (std::size_t q = 0; q < model_.bins; ++q) {
        if (node.stacks[q].size() < 2) continue;
        const double by = mismatch(node, q);
        if (by <= most) continue;
        most = by;
        chosen = q;
    }
    if (most > kMismatch) {
        const double at = relaxation_.thickness(node, chosen) + kSameLength;
        const auto thin = [&](std::uint32_t each) { return thickness_of(chosen, each) <= at; };
        if (auto halves = parted(node, chosen, thin)) return halves;
    } else {
        if (auto halves = by_shortage(node)) return halves;
        if (auto halves = by_spread(node)) return halves;
    }
    if (chosen < model_.bins) {
        const std::uint32_t point = nearest(node, chosen);
        return parted(node, chosen, [&](std::uint32_t each) { return each == point; });
    }
    for (std::size_t c = 0; c < model_.activities; ++c) {
        if (node.states[c] == ActivityState::open) {
            const bool made = relaxation_.share(node, c) > 0.5;
            return by_activity(std::move(node), c, made);
        }
    }
    return std::nullopt;
}

}  // namespace trialfit::numerics
