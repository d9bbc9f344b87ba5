// SPDX-License-Identifier: MIT
#include <doctest/doctest.h>

#include <cmath>
#include <initializer_list>
#include <support/relative.hpp>
#include <trialfit/odds/sampling/distribution_of.hpp>

namespace numerics = trialfit::numerics;
namespace quantity = trialfit::quantity;
using trialfit::odds::distribution_of;

TEST_CASE("a written size's distribution has its mean, sd and limits") {
    quantity::Size size = quantity::toleranced(12.5, -0.02, 0.1);
    for (const auto shape : {quantity::Shape::normal, quantity::Shape::truncated_normal,
                             quantity::Shape::uniform, quantity::Shape::triangular}) {
        size.spread.shape = shape;
        const numerics::Distribution law = distribution_of(size);
        CHECK(relative_error(numerics::moments(law).mean, size.middle()) <= 1e-15);
        CHECK(relative_error(std::sqrt(numerics::moments(law).variance), size.sd()) <= 1e-13);
        if (shape != quantity::Shape::normal) {
            CHECK(relative_error(law.from, 12.48) <= 1e-15);
            CHECK(relative_error(law.to, 12.6) <= 1e-15);
        }
    }
    const quantity::Size readings = quantity::repeated_reading(12.48, 0.015, 3, 0.02);
    const numerics::Distribution law = distribution_of(readings);
    CHECK(law.kind == numerics::DistributionKind::gauge);
    CHECK(relative_error(std::sqrt(numerics::moments(law).variance), readings.sd()) <= 1e-13);
    CHECK(distribution_of(quantity::exact(3.0)) == numerics::exactly(3.0));
}
