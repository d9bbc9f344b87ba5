// SPDX-License-Identifier: MIT
#include <doctest/doctest.h>

#include <trialfit/numerics/linear/simplex.hpp>

#include "random_problem.hpp"

using namespace trialfit;
using numerics::Simplex;
using testing::Dice;

namespace {

constexpr std::size_t kRows = 4;
constexpr std::size_t kColumns = 3;

struct Numbers {
    std::vector<double> matrix, costs, lower, upper;
};

Numbers random_numbers(Dice& dice) {
    Numbers numbers;
    for (std::size_t i = 0; i < kRows * kColumns; ++i)
        numbers.matrix.push_back(dice.whole(-2, 2));
    for (std::size_t j = 0; j < kColumns; ++j)
        numbers.costs.push_back(dice.real(-1.0, 2.0));
    for (std::size_t i = 0; i < kColumns + kRows; ++i) {
        numbers.lower.push_back(dice.real(-2.0, 1.0));
        numbers.upper.push_back(numbers.lower.back() + dice.real(0.0, 3.0));
    }
    return numbers;
}

void put(const Numbers& numbers, Simplex& program) {
    for (std::size_t j = 0; j < kColumns; ++j)
        program.set_cost(j, numbers.costs[j]);
    for (std::size_t i = 0; i < kColumns + kRows; ++i)
        program.set_bounds(i, numbers.lower[i], numbers.upper[i]);
}

double by_vertices(const Numbers& numbers) {
    std::vector<testing::HalfPlane> planes;
    for (std::size_t i = 0; i < kColumns + kRows; ++i) {
        std::vector<double> a(kColumns, 0.0);
        for (std::size_t j = 0; j < kColumns; ++j)
            a[j] =
                i < kColumns ? (i == j ? 1.0 : 0.0) : numbers.matrix[(i - kColumns) * kColumns + j];
        planes.push_back({a, numbers.lower[i]});
        for (double& each : a)
            each = -each;
        planes.push_back({a, -numbers.upper[i]});
    }
    return testing::least_at_vertices(planes, numbers.costs);
}

}  // namespace

TEST_CASE("optima equal the best vertex, from the slack basis and from any earlier one") {
    int feasible = 0;
    for (std::uint64_t number = 0; number < 300; ++number) {
        CAPTURE(number);
        Dice dice(number);
        Numbers numbers = random_numbers(dice);
        Simplex warm(kRows, kColumns, numbers.matrix);
        for (int change = 0; change < 4; ++change) {
            const double expected = by_vertices(numbers);
            Simplex cold(kRows, kColumns, numbers.matrix);
            cold.take_basis(warm);
            put(numbers, warm);
            put(numbers, cold);
            for (Simplex* program : {&warm, &cold}) {
                const auto outcome = program->solve(1e9, 1000);
                if (std::isinf(expected)) {
                    CHECK(outcome == Simplex::Outcome::infeasible);
                    continue;
                }
                REQUIRE(outcome == Simplex::Outcome::optimal);
                CHECK(program->objective() == doctest::Approx(expected).epsilon(1e-8));
                ++feasible;
                for (std::size_t i = 0; i < kColumns + kRows; ++i) {
                    CHECK(program->value(i) >= numbers.lower[i] - 1e-8);
                    CHECK(program->value(i) <= numbers.upper[i] + 1e-8);
                }
            }
            const std::vector<double> matrix = numbers.matrix;
            numbers = random_numbers(dice);
            numbers.matrix = matrix;
        }
    }
    CHECK(feasible > 200);
}

TEST_CASE("a cutoff stops early with a bound that holds") {
    Simplex program(1, 2, {1.0, 1.0});
    program.set_bounds(0, 0.0, 5.0);
    program.set_bounds(1, 0.0, 5.0);
    program.set_bounds(2, 4.0, 10.0);
    program.set_cost(0, 1.0);
    program.set_cost(1, 2.0);
    CHECK(program.solve(1.0, 100) == Simplex::Outcome::cutoff);
    CHECK(program.objective() <= 4.0 + 1e-12);
    CHECK(program.solve(100.0, 100) == Simplex::Outcome::optimal);
    CHECK(program.objective() == doctest::Approx(4.0));
    CHECK(program.reduced_cost(2) == doctest::Approx(1.0));  // the row's multiplier
}
