// SPDX-License-Identifier: MIT
#include <algorithm>
#include <bit>
#include <cmath>
#include <cstdint>
#include <map>
#include <mutex>
#include <stdexcept>
#include <trialfit/numerics/infinity.hpp>
#include <trialfit/numerics/linear/feasible_set.hpp>
#include <trialfit/numerics/linear/simplex.hpp>
#include <tuple>
#include <unordered_map>
#include <utility>

namespace trialfit::numerics {

namespace {

// Rows may miss their right side by this share of the largest bound: what sums of that size round
// to, with room to spare.
constexpr double kRowRounding = 1e-9;
// Dual steps for each row and column before a solve counts as going in circles. The programs met
// here take fewer steps than they have rows and columns.
constexpr std::size_t kStepsEach = 20;

// Costs in no order, 1 to 2: with all alike (all 0 say) the steps might go in circles.
double unlike_cost(std::size_t column) {
    constexpr std::size_t kPrime = 101;
    constexpr std::size_t kStride = 37;
    return 1.0 + static_cast<double>(column * kStride % kPrime) / static_cast<double>(kPrime);
}

// Directions in the order of their entries.
struct ByEntries {
    bool operator()(const Eigen::VectorXd& a, const Eigen::VectorXd& b) const {
        return std::lexicographical_compare(a.begin(), a.end(), b.begin(), b.end());
    }
};

bool same(const Eigen::SparseVector<double>& a, const Eigen::SparseVector<double>& b) {
    const auto n = a.nonZeros();
    return n == b.nonZeros() && std::equal(a.valuePtr(), a.valuePtr() + n, b.valuePtr()) &&
           std::equal(a.innerIndexPtr(), a.innerIndexPtr() + n, b.innerIndexPtr());
}

}  // namespace

// Every answer asks for the same few gaps again and again: in every state, at both ends of a play,
// and once more before and after a plan.
class FeasibleSet::Memory {
public:
    [[nodiscard]] std::optional<Extremes> find(const Eigen::SparseVector<double>& objective) const {
        const std::lock_guard lock(mutex_);
        const auto [first, last] = known_.equal_range(key(objective));
        const auto found = std::find_if(
            first, last, [&](const auto& each) { return same(each.second.first, objective); });
        if (found == last) return std::nullopt;
        return found->second.second;
    }

    void keep(const Eigen::SparseVector<double>& objective, const Extremes& extremes) {
        const auto terms = static_cast<std::size_t>(objective.nonZeros());
        const std::lock_guard lock(mutex_);
        if (terms_ + terms > kMostTerms) return;
        terms_ += terms;
        known_.emplace(key(objective), std::pair(objective, extremes));
    }

private:
    // About a megabyte.
    static constexpr std::size_t kMostTerms = 60'000;

    static std::size_t key(const Eigen::SparseVector<double>& objective) {
        constexpr std::size_t kMultiplier = 0x9E3779B97F4A7C15;  // of Fibonacci hashing
        std::size_t key = 0;
        for (Eigen::SparseVector<double>::InnerIterator it(objective); it; ++it) {
            key = (key ^ static_cast<std::size_t>(it.index())) * kMultiplier;
            key = (key ^ std::bit_cast<std::uint64_t>(it.value()) >> 20U) * kMultiplier;
        }
        return key;
    }

    mutable std::mutex mutex_;
    std::unordered_multimap<std::size_t, std::pair<Eigen::SparseVector<double>, Extremes>> known_;
    std::size_t terms_ = 0;
};

FeasibleSet::FeasibleSet(const LinearProgram& program)
    : middle_((program.lower + program.upper) / 2.0),
      half_width_((program.upper - program.lower) / 2.0),
      right_(program.right - program.rows * middle_),
      unit_(Eigen::VectorXd::Zero(program.right.size())),
      rounding_(kRowRounding * std::max({1.0, program.lower.cwiseAbs().maxCoeff(),
                                         program.upper.cwiseAbs().maxCoeff()})),
      memory_(std::make_shared<Memory>()) {
    std::map<Eigen::VectorXd, int, ByEntries> known;
    columns_.resize(static_cast<std::size_t>(middle_.size()));
    for (Eigen::Index j = 0; j < middle_.size(); ++j) {
        const Eigen::VectorXd column = program.rows.col(j);
        const auto first =
            std::find_if(column.begin(), column.end(), [](double x) { return x != 0.0; });
        if (first == column.end() || half_width_[j] == 0.0) continue;
        const Eigen::VectorXd along = column / *first;
        const auto [found, is_new] = known.emplace(along, static_cast<int>(directions_.size()));
        if (is_new) directions_.push_back({.along = along});
        Column& made = columns_[static_cast<std::size_t>(j)];
        made.direction = found->second;
        made.times = *first;
        made.reach = std::abs(*first) * half_width_[j];
        Direction& direction = directions_[static_cast<std::size_t>(made.direction)];
        direction.reach += made.reach;
        ++direction.columns;
    }
    for (const Direction& each : directions_)
        unit_ += each.reach * each.along.cwiseAbs();
}

std::vector<FeasibleSet::Merged> FeasibleSet::merged(
    const Eigen::SparseVector<double>& objective) const {
    std::map<std::pair<int, double>, double> reach;
    std::vector<double> left(directions_.size());
    std::vector<std::size_t> columns_left(directions_.size());
    for (std::size_t d = 0; d < directions_.size(); ++d) {
        left[d] = directions_[d].reach;
        columns_left[d] = directions_[d].columns;
    }
    for (Eigen::SparseVector<double>::InnerIterator it(objective); it; ++it) {
        const Column& column = columns_[static_cast<std::size_t>(it.index())];
        if (column.direction < 0 || it.value() == 0.0) continue;
        reach[{column.direction, it.value() / column.times}] += column.reach;
        left[static_cast<std::size_t>(column.direction)] -= column.reach;
        --columns_left[static_cast<std::size_t>(column.direction)];
    }
    std::vector<Merged> all;
    all.reserve(reach.size() + directions_.size());
    for (const auto& [which, each] : reach)
        all.push_back({.direction = which.first, .gain = which.second, .reach = each});
    for (std::size_t d = 0; d < directions_.size(); ++d)
        if (columns_left[d] > 0 && left[d] > 0.0)
            all.push_back({.direction = static_cast<int>(d), .gain = 0.0, .reach = left[d]});
    return all;
}

// The greatest gain, with every column from -1 to 1 of its reach; nothing where no such columns
// keep the rows to `slack`.
std::optional<double> FeasibleSet::solve(const std::vector<Merged>& columns, double slack) const {
    const auto rows = static_cast<std::size_t>(right_.size());
    std::vector<double> matrix(rows * columns.size());
    for (std::size_t i = 0; i < rows; ++i) {
        for (std::size_t j = 0; j < columns.size(); ++j) {
            const Direction& direction =
                directions_[static_cast<std::size_t>(columns[j].direction)];
            const auto row = static_cast<Eigen::Index>(i);
            matrix[i * columns.size() + j] =
                direction.along[row] * columns[j].reach / std::max(unit_[row], kRowRounding);
        }
    }
    Simplex simplex(rows, columns.size(), matrix);
    double most = 0.0;
    for (std::size_t j = 0; j < columns.size(); ++j) {
        simplex.set_bounds(j, -1.0, 1.0);
        simplex.set_cost(j, -columns[j].gain * columns[j].reach);
        most = std::max(most, std::abs(columns[j].gain * columns[j].reach));
    }
    for (std::size_t i = 0; i < rows; ++i) {
        const auto row = static_cast<Eigen::Index>(i);
        const double unit = std::max(unit_[row], kRowRounding);
        simplex.set_bounds(columns.size() + i, (right_[row] - slack) / unit,
                           (right_[row] + slack) / unit);
    }
    const std::size_t steps = kStepsEach * (rows + columns.size() + 1);
    Simplex::Outcome outcome = simplex.solve(kInfinity, steps);
    if (outcome == Simplex::Outcome::stalled) {
        // Costs a trifle apart lead out of the circle; the trifle stays below rounding.
        const double trifle = 1e-14 * std::max(most, 1e-300);
        for (std::size_t j = 0; j < columns.size(); ++j)
            simplex.set_cost(j, -columns[j].gain * columns[j].reach + trifle * unlike_cost(j));
        outcome = simplex.solve(kInfinity, steps);
    }
    if (outcome == Simplex::Outcome::infeasible) return std::nullopt;
    if (outcome != Simplex::Outcome::optimal)
        throw std::logic_error("the linear program of the worst case goes in circles");
    double gained = 0.0;
    for (std::size_t j = 0; j < columns.size(); ++j)
        gained += columns[j].gain * columns[j].reach * simplex.value(j);
    return gained;
}

std::optional<FeasibleSet> FeasibleSet::of(const LinearProgram& program) {
    FeasibleSet set(program);
    std::vector<Merged> all;
    for (std::size_t d = 0; d < set.directions_.size(); ++d) {
        if (set.directions_[d].reach > 0.0)
            all.push_back({.direction = static_cast<int>(d),
                           .gain = unlike_cost(d),
                           .reach = set.directions_[d].reach});
    }
    if (set.solve(all, 0.0) || set.solve(all, set.rounding_)) return set;
    return std::nullopt;
}

// Where the rows leave hardly any room, rounding may close it.
std::optional<double> FeasibleSet::gained(const std::vector<Merged>& columns) const {
    std::optional<double> gained = solve(columns, 0.0);
    if (!gained) gained = solve(columns, rounding_);
    return gained;
}

// `objective` at the middles, and what the variables that move no row add to it.
double FeasibleSet::loose(const Eigen::SparseVector<double>& objective) const {
    double most = objective.dot(middle_);
    for (Eigen::SparseVector<double>::InnerIterator it(objective); it; ++it)
        if (columns_[static_cast<std::size_t>(it.index())].direction < 0)
            most += std::abs(it.value()) * half_width_[it.index()];
    return most;
}

double FeasibleSet::maximum(const Eigen::SparseVector<double>& objective) const {
    const std::optional<double> gain = gained(merged(objective));
    if (!gain) throw std::logic_error("a feasible set has no point");
    return loose(objective) + *gain;
}

FeasibleSet::Extremes FeasibleSet::extremes(const Eigen::SparseVector<double>& objective) const {
    if (const auto known = memory_->find(objective)) return *known;
    const Extremes found{.least = -maximum(-objective), .greatest = maximum(objective)};
    memory_->keep(objective, found);
    return found;
}

std::vector<std::optional<FeasibleSet::Extremes>> FeasibleSet::extremes_if(
    const Eigen::SparseVector<double>& objective, const std::vector<Narrowed>& all) const {
    const Extremes now = extremes(objective);
    const Eigen::SparseVector<double> turned = -objective;
    const std::vector<Merged> rising = merged(objective);
    const std::vector<Merged> falling = merged(turned);
    const double most = loose(objective);
    const double least = -loose(turned);
    const auto with_less = [](std::vector<Merged> columns, int direction, double gain, double by) {
        for (Merged& each : columns)
            if (each.direction == direction && each.gain == gain)
                each.reach = std::max(0.0, each.reach - by);
        return columns;
    };
    // Variables that move as one leave the same when they lose the same.
    std::map<std::tuple<int, double, double>, std::optional<Extremes>> known;
    std::vector<std::optional<Extremes>> found;
    found.reserve(all.size());
    for (const Narrowed& each : all) {
        const Column& column = columns_[static_cast<std::size_t>(each.variable)];
        const double times = objective.coeff(each.variable);
        if (column.direction < 0) {
            const double by = std::abs(times) * (half_width_[each.variable] - each.half_width);
            found.emplace_back(Extremes{.least = now.least + by, .greatest = now.greatest - by});
            continue;
        }
        const double gain = times == 0.0 ? 0.0 : times / column.times;
        const double by = column.reach - std::abs(column.times) * each.half_width;
        const auto [at, is_new] = known.try_emplace({column.direction, gain, by});
        if (is_new) {
            const auto up = gained(with_less(rising, column.direction, gain, by));
            const auto down = gained(with_less(falling, column.direction, -gain, by));
            if (up && down) at->second = Extremes{.least = least - *down, .greatest = most + *up};
        }
        found.push_back(at->second);
    }
    return found;
}

std::optional<double> maximum(const LinearProgram& program) {
    const auto set = FeasibleSet::of(program);
    if (!set) return std::nullopt;
    return set->maximum(program.objective.sparseView());
}

}  // namespace trialfit::numerics
