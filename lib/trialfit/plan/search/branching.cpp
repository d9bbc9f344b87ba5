// SPDX-License-Identifier: MIT
#include <trialfit/plan/search/branching.hpp>
#include <trialfit/plan/search/tolerances.hpp>

#include <algorithm>
#include <cmath>
#include <utility>

namespace trialfit::plan {

namespace {
constexpr double kMismatch = 1e-7;  // a point this near to the program's solution is it
}  // namespace

std::uint32_t Branching::nearest(const Node& node, std::size_t seat) const {
    const double wanted = relaxation_.thickness(node, seat);
    std::uint32_t best = node.stacks[seat].front();
    double least = kInfinity;
    for (const std::uint32_t each : node.stacks[seat]) {
        const double away = std::abs(thickness_of(seat, each) - wanted);
        if (away > least + kSameLength) continue;
        if (away > least - kSameLength &&
            relaxation_.value(seat, each) >= relaxation_.value(seat, best))
            continue;
        least = away;
        best = each;
    }
    return best;
}

double Branching::mismatch(const Node& node, std::size_t seat) const {
    const std::uint32_t point = nearest(node, seat);
    const double away = std::abs(thickness_of(seat, point) - relaxation_.thickness(node, seat));
    return away +
           std::max(0.0, relaxation_.value(seat, point) - relaxation_.hull_value(node, seat));
}

double Branching::spread_missing(const Node& node, std::size_t seat) const {
    return model_.choices[seat].points[nearest(node, seat)].spread - relaxation_.spread(node, seat);
}

Halves Branching::by_cut(Node node, std::size_t cut, bool likely_made) {
    Halves halves{node, std::move(node)};
    halves.likely.states[cut] = likely_made ? State::cut : State::uncut;
    halves.other.states[cut] = likely_made ? State::uncut : State::cut;
    return halves;
}

// None when all points, or no points, are likely.
template <typename Likely>
std::optional<Halves> Branching::parted(Node& node, std::size_t seat, Likely likely) const {
    const auto& open = node.stacks[seat];
    const auto count = std::count_if(open.begin(), open.end(), likely);
    if (count == 0 || count == std::ssize(open)) return std::nullopt;
    Halves halves{node, std::move(node)};
    std::erase_if(halves.likely.stacks[seat], [&](std::uint32_t each) { return !likely(each); });
    std::erase_if(halves.other.stacks[seat], likely);
    refresh_spread(model_, seat, halves.likely);
    refresh_spread(model_, seat, halves.other);
    return halves;
}

// Where the nearest points want more pieces of a kind than there are: one of their seats is split
// into what uses the kind and what does not.
std::optional<Halves> Branching::by_shortage(Node& node) const {
    std::vector<std::uint32_t> points;
    for (std::size_t q = 0; q < model_.seats; ++q)
        points.push_back(nearest(node, q));
    for (std::size_t n = 0; n < model_.scarce_kinds.size(); ++n) {
        int left = *model_.problem->stock[model_.scarce_kinds[n]].pieces;
        for (std::size_t q = 0; q < model_.seats; ++q)
            left -= model_.least_use(q, points[q], n);
        if (left >= 0) continue;
        for (std::size_t q = 0; q < model_.seats; ++q) {
            if (model_.least_use(q, points[q], n) == 0) continue;
            const auto uses = [&](std::uint32_t each) { return model_.least_use(q, each, n) > 0; };
            if (auto halves = parted(node, q, uses)) return halves;
        }
    }
    return std::nullopt;
}

// Where the nearest points spread more than the program has them, the seat's range is narrowed from
// its far end, so that the line under its spreads can rise.
std::optional<Halves> Branching::by_spread(Node& node) const {
    std::size_t chosen = model_.seats;
    double most = kMismatch;
    for (std::size_t q = 0; q < model_.seats; ++q) {
        const auto& open = node.stacks[q];
        if (thickness_of(q, open.back()) - thickness_of(q, open.front()) < kSameLength) continue;
        const double by = spread_missing(node, q);
        if (by <= most) continue;
        most = by;
        chosen = q;
    }
    if (chosen == model_.seats) return std::nullopt;
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

std::optional<Halves> Branching::by_kind(const Node& node, const Kind& kind) const {
    for (const std::size_t q : kind.seats) {
        const auto empty = [&](std::uint32_t each) {
            return model_.choices[q].points[each].count == 0;
        };
        Node parted_node = node;
        if (auto halves = parted(parted_node, q, empty)) return halves;
    }
    for (const std::size_t c : kind.cuts)
        if (node.states[c] == State::open) return by_cut(node, c, false);
    return std::nullopt;
}

std::optional<Halves> Branching::by_seat(Node node) const {
    std::size_t chosen = model_.seats;
    double most = -1.0;
    for (std::size_t q = 0; q < model_.seats; ++q) {
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
    if (chosen < model_.seats) {
        const std::uint32_t point = nearest(node, chosen);
        return parted(node, chosen, [&](std::uint32_t each) { return each == point; });
    }
    for (std::size_t c = 0; c < model_.cuts; ++c) {
        if (node.states[c] == State::open) {
            const bool made = relaxation_.share(node, c) > 0.5;
            return by_cut(std::move(node), c, made);
        }
    }
    return std::nullopt;
}

}  // namespace trialfit::plan
