// SPDX-License-Identifier: MIT
#include <doctest/doctest.h>

#include <trialfit/plan/job/shims.hpp>

using namespace trialfit;
using job::RoundingWay;

namespace {

// Whether the rule brings `length` to `size`, and to no multiple beside it.
bool brings(double length, RoundingWay way, double step, double size) {
    const plan::RoundedFrom from = plan::rounded_from({way, step});
    const auto comes_to = [&](double multiple) {
        return length >= multiple + from.least && length <= multiple + from.most;
    };
    return comes_to(size) && !comes_to(size - from.grid) && !comes_to(size + from.grid);
}

}  // namespace

TEST_CASE("rounding rules at and beside their turning points") {
    CHECK(brings(2.30, RoundingWay::down, 0.05, 2.30));
    CHECK(brings(2.2999, RoundingWay::down, 0.05, 2.25));
    CHECK(brings(2.2501, RoundingWay::up, 0.05, 2.30));
    CHECK(brings(2.25, RoundingWay::up, 0.05, 2.25));
    CHECK(brings(2.275, RoundingWay::nearest, 0.05, 2.25));
    CHECK(brings(2.276, RoundingWay::nearest, 0.05, 2.30));
    const double expected[] = {1.20, 1.20, 1.20, 1.25, 1.25, 1.25, 1.25, 1.25, 1.30, 1.30};
    for (int digit = 0; digit < 10; ++digit) {
        CAPTURE(digit);
        CHECK(brings(1.20 + 0.01 * digit, RoundingWay::last_digit, 0.01, expected[digit]));
    }
}
