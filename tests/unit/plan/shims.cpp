// SPDX-License-Identifier: MIT
#include <doctest/doctest.h>

#include <trialfit/plan/job/shims.hpp>

using namespace trialfit;
using job::RoundingWay;

TEST_CASE("rounding rules at and beside their turning points") {
    CHECK(plan::rounded(2.30, RoundingWay::down, 0.05) == doctest::Approx(2.30));
    CHECK(plan::rounded(2.2999, RoundingWay::down, 0.05) == doctest::Approx(2.25));
    CHECK(plan::rounded(2.2501, RoundingWay::up, 0.05) == doctest::Approx(2.30));
    CHECK(plan::rounded(2.25, RoundingWay::up, 0.05) == doctest::Approx(2.25));
    CHECK(plan::rounded(2.275, RoundingWay::nearest, 0.05) == doctest::Approx(2.25));
    CHECK(plan::rounded(2.276, RoundingWay::nearest, 0.05) == doctest::Approx(2.30));
    const double expected[] = {1.20, 1.20, 1.20, 1.25, 1.25, 1.25, 1.25, 1.25, 1.30, 1.30};
    for (int digit = 0; digit < 10; ++digit) {
        CHECK(plan::rounded(1.20 + 0.01 * digit, RoundingWay::last_digit, 0.01) ==
              doctest::Approx(expected[digit]));
    }
}

TEST_CASE("a stack is picked by aim, then fewest pieces, then the thinner") {
    const std::vector<numerics::StockItem> stock{
        {0.2, 0.01, 0.0, {}}, {0.3, 0.01, 0.0, {}}, {0.5, 0.01, 0.0, 1}, {1.0, 0.01, 0.0, {}}};
    const auto pick = [&](double least, double greatest, std::optional<double> aim) {
        return plan::pick_stack(stock, {least, greatest, aim}, 0, 3);
    };
    CHECK(pick(0.3, 0.7, 0.5)->pieces == std::vector<std::size_t>{2});
    CHECK(pick(0.3, 0.7, 0.55)->thickness == doctest::Approx(0.5));  // 0.6 is as near, but two
    CHECK(pick(0.75, 1.2, {})->pieces == std::vector<std::size_t>{3});
    CHECK(pick(1.45, 1.55, 1.5)->half_width == doctest::Approx(0.02));
    CHECK(pick(0.0, 0.1, 0.1)->pieces.empty());
    CHECK_FALSE(pick(0.495, 0.505, 0.5));  // its own half-width takes it out
    CHECK_FALSE(pick(5.0, 6.0, {}));
    CHECK(plan::pick_stack(stock, {0.0, 2.0, 0.5}, 2, 2)->pieces == std::vector<std::size_t>{0, 1});
}

TEST_CASE("float and room are two sides of one sum") {
    const double room = plan::room_from_trial(1.90, 0.28);
    const plan::StackWant want = plan::stack_for_float(room, 0.10, 0.20, 0.15);
    CHECK(want.least == doctest::Approx(1.98));
    CHECK(want.greatest == doctest::Approx(2.08));
    CHECK(*want.aim == doctest::Approx(2.03));
    CHECK(plan::stack_for_float(0.05, 0.10, 0.20).greatest == 0.0);
}
