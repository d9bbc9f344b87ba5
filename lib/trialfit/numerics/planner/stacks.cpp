// SPDX-License-Identifier: MIT
#include <trialfit/numerics/planner/stacks.hpp>

#include <algorithm>
#include <cmath>
#include <tuple>

namespace trialfit::numerics {

namespace {

// Lengths and prices are compared on a grid so fine that only rounding lies between its steps: an
// order, which "nearly equal" is not.
double grid(double value) {
    return std::round(value * 1e9);
}

struct Stack {
    double thickness = 0.0;
    double spread = 0.0;
    double price = 0.0;
    std::vector<std::size_t> pieces;
};

// Uses of scarce stock in ascending order; `fewer` is true where `a` takes no piece that `b`
// leaves.
bool takes_no_more(const Stack& a, const Stack& b, const std::vector<bool>& scarce) {
    const auto skip = [&](const Stack& stack, std::size_t at) {
        while (at < stack.pieces.size() && !scarce[stack.pieces[at]])
            ++at;
        return at;
    };
    std::size_t in_b = skip(b, 0);
    for (std::size_t in_a = skip(a, 0); in_a < a.pieces.size(); in_a = skip(a, in_a + 1)) {
        while (in_b < b.pieces.size() && b.pieces[in_b] < a.pieces[in_a])
            in_b = skip(b, in_b + 1);
        if (in_b == b.pieces.size() || b.pieces[in_b] != a.pieces[in_a]) return false;
        in_b = skip(b, in_b + 1);
    }
    return true;
}

bool dominates(const Stack& a, const Stack& b, const std::vector<bool>& scarce, bool count_fixed) {
    const std::size_t in_a = a.pieces.size();
    const std::size_t in_b = b.pieces.size();
    if (count_fixed ? in_a != in_b : in_a > in_b) return false;
    if (grid(a.spread) > grid(b.spread) || grid(a.price) > grid(b.price)) return false;
    return takes_no_more(a, b, scarce);
}

using Rank = std::tuple<double, double, double, std::size_t>;

Rank rank(const Stack& stack) {
    return {grid(stack.thickness), grid(stack.price), grid(stack.spread), stack.pieces.size()};
}

// Sorted by rank, a stack can only be dominated by an earlier one of its own thickness.
void drop_dominated(std::vector<Stack>& stacks, const std::vector<bool>& scarce, bool count_fixed) {
    std::vector<std::pair<Rank, std::size_t>> order;
    order.reserve(stacks.size());
    for (std::size_t i = 0; i < stacks.size(); ++i)
        order.emplace_back(rank(stacks[i]), i);
    std::sort(order.begin(), order.end(), [&](const auto& a, const auto& b) {
        return a.first != b.first ? a.first < b.first
                                  : stacks[a.second].pieces < stacks[b.second].pieces;
    });
    std::vector<Stack> kept;
    kept.reserve(stacks.size());
    for (const auto& [each, index] : order) {
        Stack& stack = stacks[index];
        bool dominated = false;
        for (auto other = kept.rbegin(); other != kept.rend() && !dominated; ++other) {
            if (grid(other->thickness) != std::get<0>(each)) break;
            dominated = dominates(*other, stack, scarce, count_fixed);
        }
        if (!dominated) kept.push_back(std::move(stack));
    }
    stacks = std::move(kept);
}

// Of kinds alike in all, one of which there are as many as could lie there is enough.
void drop_equal(const Problem& problem, std::size_t most, const std::vector<bool>& scarce,
                std::vector<std::size_t>& kinds) {
    std::vector<std::size_t> kept;
    for (const std::size_t kind : kinds) {
        const StockItem& item = problem.stock[kind];
        const auto same = [&](std::size_t other) {
            const StockItem& earlier = problem.stock[other];
            return earlier.thickness == item.thickness && earlier.half_width == item.half_width &&
                   earlier.price == item.price &&
                   (!earlier.pieces ||
                    (!scarce[other] && static_cast<std::size_t>(*earlier.pieces) >= most));
        };
        if (std::none_of(kept.begin(), kept.end(), same)) kept.push_back(kind);
    }
    kinds = std::move(kept);
}

bool on_grid(double thickness, double step) {
    constexpr double kOfAStep = 1e-6;
    const double steps = step > 0.0 ? thickness / step : 0.0;
    return std::abs(steps - std::round(steps)) <= kOfAStep;
}

}  // namespace

std::vector<bool> scarce_stock(const Problem& problem) {
    std::vector<int> wanted(problem.stock.size(), 0);
    std::vector<int> bins(problem.stock.size(), 0);
    for (const Bin& bin : problem.bins) {
        for (const std::size_t kind : bin.stock) {
            wanted[kind] += bin.at_most;
            ++bins[kind];
        }
    }
    std::vector<bool> scarce(problem.stock.size(), false);
    for (std::size_t kind = 0; kind < scarce.size(); ++kind) {
        const auto& pieces = problem.stock[kind].pieces;
        scarce[kind] = pieces && bins[kind] > 1 && *pieces < wanted[kind];
    }
    return scarce;
}

StackChoice stack_choice(const Problem& problem, std::size_t bin_index,
                         const std::vector<bool>& scarce, const StackBounds& bounds) {
    const Bin& bin = problem.bins[bin_index];
    const bool squares = problem.judge == MarginRule::rss;
    const auto most = static_cast<std::size_t>(bin.at_most);
    constexpr std::size_t kFewest = 2000;
    const std::size_t limit = bounds.limit;
    const double thickest = std::max(bounds.thickest, 0.0) + kSameLength;
    std::size_t sift_at = std::min(kFewest, limit);
    StackChoice choice;
    std::vector<Stack> stacks(1);
    std::vector<std::size_t> kinds = bin.stock;
    std::sort(kinds.begin(), kinds.end());
    kinds.erase(std::unique(kinds.begin(), kinds.end()), kinds.end());
    drop_equal(problem, most, scarce, kinds);
    for (const std::size_t kind : kinds) {
        if (bounds.clock != nullptr && bounds.clock->stopped()) {
            choice.complete = false;
            break;
        }
        const StockItem& item = problem.stock[kind];
        const double spread = squares ? item.half_width * item.half_width : item.half_width;
        const std::size_t have = item.pieces ? static_cast<std::size_t>(*item.pieces) : most;
        const std::size_t before_this = stacks.size();
        for (std::size_t i = 0; i < before_this; ++i) {
            Stack next = stacks[i];
            for (std::size_t n = 0; n < have && next.pieces.size() < most; ++n) {
                next.thickness += item.thickness;
                next.spread += spread;
                next.price += item.price;
                next.pieces.push_back(kind);
                if (next.thickness > thickest) break;
                stacks.push_back(next);
            }
        }
        if (stacks.size() <= sift_at) continue;
        drop_dominated(stacks, scarce, bin.at_least > 0);
        if (stacks.size() > limit) {
            choice.complete = false;
            stacks.resize(limit);  // the thinnest are kept: in doubt, fewer items
        }
        sift_at = std::max(kFewest, 2 * stacks.size());
    }
    drop_dominated(stacks, scarce, bin.at_least > 0);
    const Stack* last = nullptr;
    for (const Stack& stack : stacks) {
        const int count = static_cast<int>(stack.pieces.size());
        if (count < bin.at_least || !on_grid(stack.thickness, bin.grid)) continue;
        if (last == nullptr || rank(*last) != rank(stack))
            choice.points.push_back({stack.thickness, stack.spread, stack.price, count, {}});
        choice.points.back().stacks.push_back(stack.pieces);
        last = &stack;
    }
    return choice;
}

}  // namespace trialfit::numerics
