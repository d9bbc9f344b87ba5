// SPDX-License-Identifier: MIT
#include <doctest/doctest.h>

#include <trialfit/numerics/planner/solve.hpp>

#include <algorithm>
#include <array>
#include <atomic>
#include <cmath>
#include <stdexcept>

#include "random_problem.hpp"

using namespace trialfit;
using testing::Dice;
using testing::EveryPlan;

namespace {

numerics::Problem problem_number(std::uint64_t number) {
    Dice dice(number);
    testing::Shape shape;
    shape.cuts = dice.chance(0.2) ? dice.whole(0, 1) : dice.whole(2, 3);
    shape.seats = dice.whole(shape.cuts == 0 ? 1 : 0, 2);
    shape.rows = dice.whole(1, 3);
    shape.kinds = dice.whole(1, shape.cuts == 3 ? 2 : 3);
    numerics::Problem problem = testing::random_problem(dice, shape);
    if (number % 2 == 1) {
        problem.judge = numerics::MarginRule::rss;
        problem.inflation = dice.chance(0.5) ? 1.0 : 1.3;
    }
    return problem;
}

void check_keeps(const numerics::Problem& problem, const numerics::Solution& found) {
    double cost = 0.0;
    for (std::size_t c = 0; c < problem.activities.size(); ++c) {
        if (!found.selection.done[c]) {
            CHECK(found.amounts[c] == 0.0);
            continue;
        }
        CHECK(found.amounts[c] >= problem.activities[c].at_least - 1e-9);
        CHECK(found.amounts[c] <= problem.activities[c].at_most + 1e-9);
        cost += problem.activities[c].cost + problem.activities[c].per_amount * found.amounts[c];
    }
    for (const auto& stack : found.selection.stacks) {
        for (const std::size_t kind : stack)
            cost += problem.stock[kind].price;
    }
    CHECK(found.cost == doctest::Approx(cost).epsilon(1e-12));
    for (const numerics::RowOutcome& row : found.rows) {
        CHECK(row.above_lower >= -1e-8);
        CHECK(row.below_upper >= -1e-8);
    }
}

}  // namespace

TEST_CASE("costs equal those of every plan tried in turn, on 240 random problems") {
    int with_plan = 0;
    int with_rival = 0;
    for (std::uint64_t number = 0; number < 240; ++number) {
        CAPTURE(number);
        const numerics::Problem problem = problem_number(number);
        const std::vector<double> expected = EveryPlan(problem).shown(3);
        const numerics::SolveResult answer = numerics::solve(problem, 3);
        CHECK(answer.proven);
        CHECK(answer.conflict.has_value() == expected.empty());
        REQUIRE(answer.plans.size() == expected.size());
        for (std::size_t i = 0; i < expected.size(); ++i) {
            CHECK(answer.plans[i].cost == doctest::Approx(expected[i]).epsilon(1e-9));
            check_keeps(problem, answer.plans[i]);
        }
        with_plan += expected.empty() ? 0 : 1;
        with_rival += expected.size() > 1 ? 1 : 0;
    }
    CHECK(with_plan >= 80);   // the problems are not all hopeless
    CHECK(with_rival >= 15);  // nor all with one way out
}

TEST_CASE("the smallest conflict is one, and nothing in it can be left out") {
    int seen = 0;
    for (std::uint64_t number = 1000; number < 1150; ++number) {
        CAPTURE(number);
        numerics::Problem problem = problem_number(number);
        const numerics::SolveResult answer = numerics::solve(problem, 1);
        if (!answer.conflict) continue;
        ++seen;
        CHECK(answer.proven);
        CHECK(answer.conflict->irreducible);
        CHECK_FALSE(answer.conflict->members.empty());
        if (!answer.conflict->relaxed) continue;
        const numerics::ConflictLimit& limit = *answer.conflict->relaxed;
        const auto eased_by = [&](double by) {
            numerics::Problem eased = problem;
            if (limit.kind == numerics::LimitKind::row_lower) eased.rows[limit.index].lower -= by;
            if (limit.kind == numerics::LimitKind::row_upper) eased.rows[limit.index].upper += by;
            if (limit.kind == numerics::LimitKind::activity_amount)
                eased.activities[limit.index].at_most += by;
            return numerics::solve(eased, 1).plans.empty();
        };
        if (limit.kind == numerics::LimitKind::bin_stock) continue;
        const double by = answer.conflict->relaxed_by;
        CHECK(by > 1e-9);
        CHECK_FALSE(eased_by(by + 1e-6));
        CHECK(eased_by(by - 1e-6));
    }
    CHECK(seen >= 10);
}

// Either of two activities meets the one row, and both are free.
numerics::Problem two_free_ways() {
    numerics::Problem problem;
    problem.activities = {{"rim", 0.0, 2.0, 0.0, 0.0}, {"boss", 0.0, 2.0, 0.0, 0.0}};
    numerics::ConstraintRow row;
    row.lower = 0.5;
    row.upper = 10.0;
    row.activities = {{1.0, 0.0, 0.0, 0.0}, {1.0, 0.0, 0.0, 0.0}};
    problem.rows = {row};
    return problem;
}

TEST_CASE("a plan that costs nothing has rivals all the same, one that adds nothing has none") {
    numerics::Problem problem = two_free_ways();
    SUBCASE("both free") {
        const numerics::SolveResult answer = numerics::solve(problem);
        CHECK(answer.plans.size() == 2);
        CHECK(answer.ties == 2);
        CHECK_FALSE(answer.more_ties);
    }
    SUBCASE("one of them costs something") {
        problem.activities[1].cost = 1.0;
        const numerics::SolveResult answer = numerics::solve(problem);
        REQUIRE(answer.plans.size() == 2);
        CHECK(answer.plans[1].cost == doctest::Approx(1.0));
        CHECK(answer.ties == 1);
    }
    SUBCASE("nothing is needed: the item that lies there stays, and that is all") {
        problem.activities[0].cost = problem.activities[1].cost = 1.0;
        problem.rows[0].gap = 0.4;
        problem.rows[0].bins = {1.0};
        problem.stock = {{.thickness = 0.2, .pieces = 1}};
        problem.bins = {{.name = "seat", .stock = {0}, .at_most = 1}};
        const numerics::SolveResult answer = numerics::solve(problem);
        REQUIRE(answer.plans.size() == 1);
        CHECK(answer.plans.front().items == 1);
    }
}

TEST_CASE("a conflict of two rows is told from what stands aside") {
    numerics::Problem problem;
    problem.activities = {{"rim", 0.0, 1.0, 1.0, 0.1}, {"boss", 0.0, 5.0, 1.0, 0.1}};
    const auto row = [](double gap, double rim, double boss) {
        numerics::ConstraintRow each;
        each.lower = 0.5;
        each.upper = 10.0;
        each.gap = gap;
        each.activities = {{rim, 0.0, 0.0, 0.0}, {boss, 0.0, 0.0, 0.0}};
        return each;
    };
    problem.rows = {row(-0.2, 1.0, 0.0), row(1.0, -1.0, 0.0), row(0.0, 0.0, 1.0)};
    const numerics::SolveResult answer = numerics::solve(problem);
    CHECK(answer.plans.empty());
    CHECK(answer.proven);
    REQUIRE(answer.conflict);
    const std::vector<numerics::ConflictLimit> expected{{numerics::LimitKind::row_lower, 0},
                                                        {numerics::LimitKind::row_lower, 1}};
    CHECK(answer.conflict->members == expected);
    REQUIRE(answer.conflict->relaxed);
    CHECK(answer.conflict->relaxed_by == doctest::Approx(0.2));  // 0.7 is needed, 0.5 can be had
}

TEST_CASE("limits that are one give together, and an amount gives no more than it may") {
    numerics::Problem problem;
    problem.activities = {{"rim", 0.0, 1.0, 1.0, 0.1}};
    const auto row = [](double gap, double rim) {
        numerics::ConstraintRow each;
        each.lower = 0.5;
        each.upper = numerics::kInfinity;
        each.gap = gap;
        each.activities = {{rim, 0.0, 0.0, 0.0}};
        return each;
    };
    problem.rows = {row(0.1, 0.0), row(-0.2, 0.0)};
    CHECK_FALSE(numerics::solve(problem).conflict->relaxed);  // each would have to give
    problem.limits_of = {0, 0};
    const numerics::Conflict one = *numerics::solve(problem).conflict;
    CHECK(one.members.size() == 1);
    REQUIRE(one.relaxed);
    CHECK(*one.relaxed == numerics::ConflictLimit{numerics::LimitKind::row_lower, 0});
    CHECK(one.relaxed_by == doctest::Approx(0.7));

    problem.rows = {row(-3.0, 1.0)};  // an amount of 3.5 is needed, 1 can be had
    problem.limits_of = {0};
    problem.activities[0].may_give = 2.6;
    CHECK(numerics::solve(problem).conflict->relaxed_by == doctest::Approx(2.5));
    problem.activities[0].may_give = 2.4;
    const numerics::Conflict alone = *numerics::solve(problem).conflict;
    CHECK(alone.members.size() == 1);  // the row: not even all that may give is enough
    CHECK(alone.sought);

    problem.limits_of = {1};
    CHECK(numerics::faults(problem) ==
          std::vector<std::string>{"a row's limits must be those of the first row that has them"});
    problem.limits_of = {0, 0};
    CHECK(numerics::faults(problem) ==
          std::vector<std::string>{"the rows' limits must be none or one for each row"});
}

TEST_CASE("of equal costs the nearest to the aim wins, then the fewest shims, then file order") {
    numerics::Problem problem;
    problem.stock = {
        {0.3, 0.01, 0.1, {}}, {0.2, 0.01, 0.1, {}}, {0.1, 0.01, 0.1, {}}, {0.1, 0.01, 0.1, {}}};
    problem.bins = {{"seat", {0, 1, 2, 3}, 0, 3}};
    numerics::ConstraintRow row;
    row.lower = 0.0;
    row.upper = 0.9;
    row.gap = 0.5;
    row.bins = {-1.0};
    row.aim = 0.4;
    problem.rows = {row};
    SUBCASE("no shim is cheapest, whatever the aim") {
        const numerics::SolveResult answer = numerics::solve(problem);
        CHECK(answer.plans.front().items == 0);
    }
    SUBCASE("one shim is needed: the aim picks 0.1, file order the first of the two") {
        problem.rows[0].upper = 0.45;
        const numerics::Solution best = numerics::solve(problem).plans.front();
        CHECK(best.selection.stacks[0] == std::vector<std::size_t>{2});
        CHECK(best.aim_distance == doctest::Approx(0.0).epsilon(1e-12));
    }
    SUBCASE("free shims: fewer of them, when they are as near") {
        for (numerics::StockItem& shim : problem.stock)
            shim.price = 0.0;
        problem.rows[0].aim = 0.2;
        CHECK(numerics::solve(problem).plans.front().selection.stacks[0] ==
              std::vector<std::size_t>{0});
    }
}

// Cost, distance to the aims and count of the best pair of stacks, every pair tried.
std::array<double, 3> best_pair(const numerics::Problem& problem) {
    std::array<double, 3> best{1e9, 1e9, 1e9};
    const auto first = testing::every_stack(problem, problem.bins[0]);
    const auto second = testing::every_stack(problem, problem.bins[1]);
    for (const auto& a : first) {
        for (const auto& b : second) {
            std::array<double, 3> worth{};
            std::array<double, 2> middle{problem.rows[0].gap, problem.rows[1].gap};
            bool fits = true;
            for (std::size_t k = 0; k < problem.stock.size(); ++k) {
                const numerics::StockItem& shim = problem.stock[k];
                fits = fits && (!shim.pieces || a[k] + b[k] <= *shim.pieces);
                worth[0] += (a[k] + b[k]) * shim.price;
                worth[2] += a[k] + b[k];
                for (std::size_t r = 0; r < 2; ++r) {
                    const numerics::ConstraintRow& row = problem.rows[r];
                    middle[r] += shim.thickness * (a[k] * row.bins[0] + b[k] * row.bins[1]);
                }
            }
            for (std::size_t r = 0; r < 2; ++r) {
                const numerics::ConstraintRow& row = problem.rows[r];
                fits = fits && middle[r] >= row.lower - 1e-9 && middle[r] <= row.upper + 1e-9;
                worth[1] += std::abs(middle[r] - *row.aim);
            }
            for (double& each : worth)
                each = std::round(each * 1e9) / 1e9;
            if (fits) best = std::min(best, worth);
        }
    }
    return best;
}

TEST_CASE("ties are broken as every pair of stacks tried in turn says") {
    int tried = 0;
    for (std::uint64_t number = 0; number < 150; ++number) {
        CAPTURE(number);
        Dice dice(20000 + number);
        numerics::Problem problem;
        for (int k = 0; k < 5; ++k) {
            problem.stock.push_back({0.05 * dice.whole(2, 12), 0.0, 0.1, {}});
            if (dice.chance(0.5)) problem.stock.back().pieces = dice.whole(1, 2);
        }
        problem.bins = {{"left", {0, 1, 2, 3, 4}, 0, 3}, {"right", {0, 1, 2, 3, 4}, 0, 2}};
        for (int r = 0; r < 2; ++r) {
            numerics::ConstraintRow row;
            row.lower = 0.0;
            row.upper = dice.real(0.1, 0.4);
            row.aim = row.upper / 2.0;
            row.gap = dice.real(0.2, 1.5);
            row.bins = {r == 0 ? -1.0 : static_cast<double>(dice.whole(-1, 1)),
                        r == 1 ? -1.0 : static_cast<double>(dice.whole(-1, 0))};
            problem.rows.push_back(row);
        }
        const std::array<double, 3> expected = best_pair(problem);
        const numerics::SolveResult answer = numerics::solve(problem, 1);
        CHECK(answer.plans.empty() == (expected[0] > 1e8));
        if (answer.plans.empty()) continue;
        ++tried;
        const numerics::Solution& best = answer.plans.front();
        CHECK(best.untied);
        CHECK(best.cost == doctest::Approx(expected[0]));
        CHECK(best.aim_distance == doctest::Approx(expected[1]).epsilon(1e-7));
        CHECK(best.items == static_cast<int>(expected[2]));
    }
    CHECK(tried > 60);
}

TEST_CASE("of as many items, those in the fewest bins win") {
    numerics::Problem problem;
    problem.stock = {{0.2, 0.0, 0.1, 1}, {0.2, 0.0, 0.1, {}}};
    problem.bins = {{"first", {0}, 0, 2}, {"second", {1}, 0, 2}};
    numerics::ConstraintRow row;
    row.lower = 0.4;
    row.upper = 0.5;
    row.bins = {1.0, 1.0};
    problem.rows = {row};
    const numerics::SolveResult answer = numerics::solve(problem);
    REQUIRE(answer.plans.size() == 1);
    CHECK(answer.plans[0].selection.stacks == std::vector<std::vector<std::size_t>>{{}, {1, 1}});
    CHECK(answer.ties == 1);
}

TEST_CASE("limits that only the row judge has are told of a conflict, and give") {
    numerics::Problem problem;
    problem.activities = {{"front", 0.0, 0.5, 1.0, 1.0, 0.0}};
    numerics::ConstraintRow row;
    row.lower = -numerics::kInfinity;
    row.upper = numerics::kInfinity;
    row.judged_lower = 60.0;
    row.activities = {{1.0, 0.0, 0.0, 0.0}};
    problem.rows = {row};
    problem.row_judge = [](std::size_t, const numerics::Selection&) {
        return numerics::Allowed{60.0, numerics::kInfinity};
    };
    const numerics::SolveResult answer = numerics::solve(problem);
    REQUIRE(answer.conflict);
    REQUIRE(answer.conflict->members.size() == 1);
    CHECK(answer.conflict->members[0].kind == numerics::LimitKind::row_lower);
    REQUIRE(answer.conflict->relaxed);
    CHECK(answer.conflict->relaxed_by == doctest::Approx(59.5));
    CHECK(answer.conflict->relaxed_amounts == std::vector<double>{0.5});
}

TEST_CASE("two seats share what pieces there are") {
    numerics::Problem problem;
    problem.stock = {{0.5, 0.0, 0.1, 1}, {0.25, 0.0, 0.1, {}}};
    problem.bins = {{"left", {0, 1}, 0, 2}, {"right", {0, 1}, 0, 2}};
    for (std::size_t q = 0; q < 2; ++q) {
        numerics::ConstraintRow row;
        row.lower = 0.0;
        row.upper = 0.05;
        row.gap = 0.5;
        row.bins = {q == 0 ? -1.0 : 0.0, q == 1 ? -1.0 : 0.0};
        problem.rows.push_back(row);
    }
    const numerics::SolveResult answer = numerics::solve(problem);
    REQUIRE(answer.plans.size() == 1);
    CHECK(answer.plans[0].cost == doctest::Approx(0.3));
    CHECK(answer.plans[0].items == 3);
}

TEST_CASE("a row judge and a verdict are obeyed") {
    numerics::Problem problem;
    problem.judge = numerics::MarginRule::rss;
    problem.inflation = 0.0;  // the row judge is the stricter one
    problem.activities = {{"front", 0.0, 2.0, 1.0, 1.0}, {"rim", 0.0, 2.0, 1.2, 1.0}};
    numerics::ConstraintRow row;
    row.lower = 0.5;
    row.upper = 3.0;
    row.activities = {{1.0, 0.0, 0.1, 0.05}, {1.0, 0.0, 0.1, 0.05}};
    problem.rows = {row};
    problem.row_judge = [](std::size_t, const numerics::Selection& selection) {
        return numerics::Allowed{selection.done[0] ? 1.0 : 0.7, 3.0};
    };
    CHECK(numerics::solve(problem, 1).plans.front().cost == doctest::Approx(1.9));  // rim, 0.7 deep
    problem.verdict = [](const numerics::Selection& selection, const std::vector<double>&) {
        return selection.done[0];
    };
    const numerics::SolveResult answer = numerics::solve(problem, 1);
    CHECK(answer.plans.front().cost == doctest::Approx(2.0));  // front, 1.0 deep
    CHECK_FALSE(answer.proven);
}

TEST_CASE("a stopped search gives what it has, not proven") {
    const numerics::Problem problem = [] {
        Dice dice(9);
        numerics::Problem hard = testing::random_problem(dice, {12, 5, 16, 12});
        testing::hide_a_plan(dice, hard);
        return hard;
    }();
    std::atomic<bool> stop = true;
    numerics::SearchControl watch;
    watch.stop = &stop;
    const numerics::SolveResult answer = numerics::solve(problem, 3, watch);
    CHECK_FALSE(answer.proven);
    CHECK_FALSE(answer.conflict);
    watch.stop = nullptr;
    int reports = 0;
    watch.progress = [&](const numerics::Progress& progress) {
        CHECK(progress.seconds >= 0.0);
        return ++reports < 2;
    };
    CHECK_FALSE(numerics::solve(problem, 3, watch).proven);
    CHECK(reports == 2);
}

TEST_CASE("kinds of plan that cost the same are counted, beyond those shown") {
    // Three cuts, any one of which does, and two seats whose shims do as well.
    numerics::Problem problem;
    problem.stock = {{0.5, 0.0, 1.0, {}}};
    numerics::ConstraintRow row;
    row.lower = 0.5;
    row.upper = 1.0;
    for (const char* name : {"a", "b", "c"}) {
        problem.activities.push_back({name, 0.0, 1.0, 0.5, 1.0});
        row.activities.push_back({1.0, 0.0, 0.0, 0.0});
    }
    for (const char* name : {"p", "q"}) {
        problem.bins.push_back({name, {0}, 0, 1});
        row.bins.push_back(1.0);
    }
    problem.rows = {row};
    const numerics::SolveResult two = numerics::solve(problem, 2);
    CHECK(two.plans.size() == 2);
    CHECK(two.ties == 5);
    CHECK_FALSE(two.more_ties);
    problem.stock[0].price = 1.1;
    const numerics::SolveResult all = numerics::solve(problem, 9);
    CHECK(all.plans.size() == 5);
    CHECK(all.ties == 3);
    CHECK_FALSE(all.more_ties);
}

TEST_CASE("faulty problems are refused with every fault") {
    numerics::Problem problem;
    problem.activities = {{"front", 0.0, -1.0, -1.0, 0.0}};
    problem.bins = {{"base", {3}, 0, 1}};
    CHECK(numerics::faults(problem).size() == 3);
    CHECK_THROWS_AS(static_cast<void>(numerics::solve(problem)), std::invalid_argument);
    CHECK_THROWS_AS(static_cast<void>(numerics::solve(numerics::Problem{}, 0)),
                    std::invalid_argument);
    CHECK(numerics::solve(numerics::Problem{}).plans.front().cost == 0.0);
}
