// SPDX-License-Identifier: MIT
#include <doctest/doctest.h>

#include <trialfit/numerics/planner/solve.hpp>
#include <trialfit/numerics/planner/tolerances.hpp>

#include <algorithm>
#include <stdexcept>

#include "random_problem.hpp"

using namespace trialfit;
using testing::Dice;

namespace {

// A problem whose half-widths when cut are what the lathe holds.
numerics::Problem held_problem(Dice& dice, std::vector<double>& holds, int cuts) {
    numerics::Problem problem = testing::random_problem(dice, {cuts, 1, 3, 2});
    for (std::size_t c = 0; c < problem.activities.size(); ++c) {
        holds.push_back(dice.real(0.02, 0.05));
        for (numerics::ConstraintRow& row : problem.rows)
            row.activities[c].done = std::abs(row.activities[c].per_amount) * holds[c];
    }
    testing::hide_a_plan(dice, problem);
    return problem;
}

// The worst-case margin of all but the cuts made, whose sizes are known once they are made.
double margin_of_the_rest(const numerics::Problem& problem, const numerics::ConstraintRow& row,
                          const numerics::Selection& selection) {
    double margin = row.fixed_half_width;
    for (std::size_t c = 0; c < problem.activities.size(); ++c)
        margin += selection.done[c] ? 0.0 : row.activities[c].not_done;
    for (const numerics::SharedTerm& size : row.shared) {
        double sensitivity = size.sensitivity;
        for (std::size_t c = 0; c < problem.activities.size(); ++c)
            sensitivity += selection.done[c] ? size.change[c] : 0.0;
        margin += std::abs(sensitivity) * size.half_width;
    }
    for (std::size_t q = 0; q < problem.bins.size(); ++q) {
        for (const std::size_t kind : selection.stacks[q])
            margin += std::abs(row.bins[q]) * problem.stock[kind].half_width;
    }
    return margin;
}

double middle_at(const numerics::Problem& problem, const numerics::ConstraintRow& row,
                 const numerics::Selection& selection, const std::vector<double>& depths) {
    double middle = row.gap;
    for (std::size_t c = 0; c < problem.activities.size(); ++c) {
        if (selection.done[c])
            middle += row.activities[c].when_done + row.activities[c].per_amount * depths[c];
    }
    for (std::size_t q = 0; q < problem.bins.size(); ++q) {
        for (const std::size_t kind : selection.stacks[q])
            middle += row.bins[q] * problem.stock[kind].thickness;
    }
    return middle;
}

// Can two windows of these widths at least be had? Anywhere, or (`around`) with the plan's depths
// within. By every vertex of the two least depths.
bool two_windows_fit(const numerics::Problem& problem, const numerics::Solution& found,
                     const std::vector<double>& widths, bool around) {
    std::vector<testing::HalfPlane> planes;
    for (std::size_t i = 0; i < 2; ++i) {
        const numerics::Activity& cut = problem.activities[i];
        std::vector<double> unit(2, 0.0);
        const double depth = found.amounts[i];
        unit[i] = 1.0;
        planes.push_back({unit, around ? std::max(cut.at_least, depth - widths[i]) : cut.at_least});
        unit[i] = -1.0;
        planes.push_back(
            {unit, -(around ? std::min(depth, cut.at_most - widths[i]) : cut.at_most - widths[i])});
    }
    for (std::size_t r = 0; r < problem.rows.size(); ++r) {
        const numerics::ConstraintRow& row = problem.rows[r];
        const numerics::RowOutcome& outcome = found.rows[r];
        double at_zero = outcome.middle;
        double narrow_low = 0.0;
        double narrow_high = 0.0;
        std::vector<double> gains;
        for (std::size_t i = 0; i < 2; ++i) {
            const double by = row.activities[i].per_amount;
            gains.push_back(by);
            at_zero -= by * found.amounts[i];
            narrow_low += std::min(by * widths[i], 0.0);
            narrow_high += std::max(by * widths[i], 0.0);
        }
        planes.push_back({gains, row.lower + outcome.margin - at_zero - narrow_low});
        if (std::isinf(row.upper)) continue;
        for (double& gain : gains)
            gain = -gain;
        planes.push_back({gains, at_zero + narrow_high - (row.upper - outcome.margin)});
    }
    return std::isfinite(testing::least_at_vertices(planes, {0.0, 0.0}));
}

}  // namespace

TEST_CASE("every combination of readings inside the windows passes in the worst case") {
    int attacked = 0;
    for (std::uint64_t number = 0; number < 60; ++number) {
        CAPTURE(number);
        Dice dice(5000 + number);
        std::vector<double> holds;
        const numerics::Problem problem = held_problem(dice, holds, 3);
        const numerics::SolveResult answer = numerics::solve(problem, 2);
        for (const numerics::Solution& found : answer.plans) {
            const auto windows = numerics::windows(problem, found, holds);
            for (std::size_t c = 0; c < problem.activities.size(); ++c) {
                if (!found.selection.done[c]) continue;
                CHECK_FALSE(windows[c].none);
                CHECK(windows[c].least_amount >= problem.activities[c].at_least - 1e-9);
                CHECK(windows[c].greatest_amount >= windows[c].least_amount - 1e-9);
                CHECK(windows[c].greatest_amount <= problem.activities[c].at_most + 1e-9);
            }
            for (int attack = 0; attack < 40; ++attack) {
                std::vector<double> depths;
                for (const numerics::Window& window : windows) {
                    const bool corner = attack < 20;
                    const double at = corner ? dice.whole(0, 1) : dice.real(0.0, 1.0);
                    depths.push_back(window.least_amount +
                                     at * (window.greatest_amount - window.least_amount));
                }
                for (const numerics::ConstraintRow& row : problem.rows) {
                    double margin = margin_of_the_rest(problem, row, found.selection);
                    for (std::size_t c = 0; c < problem.activities.size(); ++c)
                        if (found.selection.done[c])
                            margin += std::abs(row.activities[c].per_amount) * holds[c];
                    const double middle = middle_at(problem, row, found.selection, depths);
                    CHECK(middle - margin >= row.lower - 1e-8);
                    CHECK(middle + margin <= row.upper + 1e-8);
                    ++attacked;
                }
            }
        }
    }
    CHECK(attacked > 2000);
}

TEST_CASE("two windows are wide enough to be hit, or as wide as can be; then about the plan") {
    int seen = 0;
    int narrow = 0;
    int about_the_plan = 0;
    for (std::uint64_t number = 0; number < 300 && seen < 60; ++number) {
        CAPTURE(number);
        Dice dice(9000 + number);
        std::vector<double> holds;
        const numerics::Problem problem = held_problem(dice, holds, 2);
        const numerics::SolveResult answer = numerics::solve(problem, 1);
        if (answer.plans.empty()) continue;
        const numerics::Solution& found = answer.plans.front();
        if (!found.selection.done[0] || !found.selection.done[1]) continue;
        ++seen;
        const auto windows = numerics::windows(problem, found, holds);
        std::vector<double> widths;
        double share = 1.0;
        bool around = true;
        for (std::size_t c = 0; c < 2; ++c) {
            widths.push_back(windows[c].greatest_amount - windows[c].least_amount);
            share = std::min(share, widths[c] / (2.0 * holds[c]));
            around = around && windows[c].least_amount <= found.amounts[c] + 1e-9 &&
                     windows[c].greatest_amount >= found.amounts[c] - 1e-9;
        }
        CHECK(two_windows_fit(problem, found, {widths[0] - 1e-6, widths[1] - 1e-6}, false));
        if (share < 1.0 - 1e-6) {
            const double more = share + 1e-4;
            CHECK_FALSE(two_windows_fit(problem, found,
                                        {2.0 * holds[0] * more, 2.0 * holds[1] * more}, false));
            ++narrow;
        } else if (around) {
            const double narrowest = std::min(widths[0], widths[1]) + 1e-6;
            CHECK_FALSE(two_windows_fit(
                problem, found,
                {std::max(narrowest, 2.0 * holds[0]), std::max(narrowest, 2.0 * holds[1])}, true));
            ++about_the_plan;
        } else {
            CHECK_FALSE(two_windows_fit(problem, found, {2.0 * holds[0], 2.0 * holds[1]}, true));
        }
    }
    CHECK(seen >= 10);
    CHECK(narrow + about_the_plan < seen);
    MESSAGE(narrow << " narrow, " << about_the_plan << " about the plan, of " << seen);
}

TEST_CASE("two cuts that share what must come off leave each other room off the least work") {
    numerics::Problem problem;
    problem.activities = {{"front", 0.0, 2.0, 1.0, 0.1}, {"rim", 0.0, 3.0, 5.0, 0.2}};
    numerics::ConstraintRow
        gap;  // 3 in all must come off; the front may give 2, the rim alone too little
    gap.lower = 3.0;
    gap.upper = numerics::kInfinity;
    gap.activities = {{1.0, 0.0, 0.3, 0.05}, {1.0, 0.0, 0.3, 0.1}};
    problem.rows = {gap};
    const numerics::Solution best = numerics::solve(problem, 1).plans.front();
    CHECK(best.amounts[0] + best.amounts[1] == doctest::Approx(3.15));
    const auto windows = numerics::windows(problem, best, {0.05, 0.1});
    // The front as wide as the lathe needs, 0.1; the rim deeper by as much.
    CHECK(windows[0].least_amount == doctest::Approx(1.9));
    CHECK(windows[0].greatest_amount == doctest::Approx(2.0));
    CHECK(windows[1].least_amount == doctest::Approx(1.25));
    CHECK(windows[1].greatest_amount == doctest::Approx(3.0));
}

TEST_CASE("no window where a gauge is too coarse to show that a size passes") {
    numerics::Problem problem;
    problem.activities = {{"front", 0.0, 4.0, 1.0, 0.1}};
    numerics::ConstraintRow gap;
    gap.lower = 1.0;
    gap.upper = 1.1;
    gap.activities = {{1.0, 0.0, 0.3, 0.02}};
    problem.rows = {gap};
    const numerics::Solution best = numerics::solve(problem, 1).plans.front();
    problem.rows[0].activities[0].done = 0.08;
    const auto windows = numerics::windows(problem, best, {0.08});
    CHECK(windows[0].none);
}

TEST_CASE("what the narrowest leaves over goes to the others") {
    numerics::Problem problem;
    problem.activities = {{"front", 0.0, 4.0, 1.0, 0.1}, {"rim", 0.0, 4.0, 1.0, 0.1}};
    numerics::ConstraintRow front;
    front.lower = 1.0;
    front.upper = 1.5;  // the front's window: 0.5 in all, however it is used
    front.activities = {{1.0, 0.0, 0.3, 0.05}, {0.0, 0.0, 0.0, 0.0}};
    front.bins = {};
    numerics::ConstraintRow rim = front;
    rim.upper = 3.0;
    rim.activities = {{0.0, 0.0, 0.0, 0.0}, {1.0, 0.0, 0.3, 0.1}};
    problem.rows = {front, rim};
    const numerics::Solution best = numerics::solve(problem, 1).plans.front();
    const auto windows = numerics::windows(problem, best, {0.05, 0.1});
    CHECK(windows[0].least_amount == doctest::Approx(1.05));
    CHECK(windows[0].greatest_amount == doctest::Approx(1.45));
    CHECK(windows[1].least_amount == doctest::Approx(1.1));
    CHECK(windows[1].greatest_amount == doctest::Approx(2.9));
    CHECK_THROWS_AS(static_cast<void>(numerics::windows(problem, best, {0.1})),
                    std::invalid_argument);
}
