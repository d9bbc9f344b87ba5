// SPDX-License-Identifier: MIT
#include <doctest/doctest.h>

#include <cmath>
#include <numbers>
#include <trialfit/trade/engine/compression.hpp>

using namespace trialfit::trade;
using doctest::Approx;

namespace {

constexpr Trapped kGas{.kpa = 100.0, .exponent = 1.3, .under_piston = 0.8};

// Simpson's rule over the piston's way, from the pressure at each place.
double by_steps(const Cylinder& c, const Trapped& gas, double drop) {
    constexpr int kSteps = 2000;
    const double area_cm2 = std::numbers::pi / 400.0 * c.bore * c.bore;
    const double step = (c.closing_drop - drop) / kSteps;
    double sum = 0.0;
    for (int i = 0; i <= kSteps; ++i) {
        const double at = drop + step * i;
        const double kpa =
            gas.kpa * std::pow(volume_cm3(c, c.closing_drop) / volume_cm3(c, at), gas.exponent) -
            gas.under_piston * gas.kpa;
        const double weight = i == 0 || i == kSteps ? 1.0 : i % 2 == 1 ? 4.0 : 2.0;
        sum += weight * kpa;
    }
    // kPa cm2 mm is 1e-4 J.
    return sum * step / 3.0 * area_cm2 * 1e-4;
}

}  // namespace

TEST_CASE("the trapped volume is the ratio times what is left at the top") {
    const Cylinder c = *cylinder_of(50.0, 40.0, 8.0);
    CHECK(volume_cm3(c, 40.0) / volume_cm3(c, 0.0) == Approx(8.0).epsilon(1e-14));
    // pi/4 25 cm2 times 4 cm.
    CHECK(volume_cm3(c, 40.0) - volume_cm3(c, 0.0) == Approx(78.539816339745).epsilon(1e-13));
}

TEST_CASE("the closed form is the sum of the pressure over the piston's way") {
    for (const double exponent : {0.9, 1.0, 1.0 + 1e-9, 1.25, 1.4})
        for (const double drop : {0.0, 0.4, 12.0}) {
            const Cylinder c = *cylinder_of(45.0, 30.0, 6.5);
            const Trapped gas{.kpa = 98.0, .exponent = exponent, .under_piston = 0.7};
            CHECK(compression_work_j(c, gas, drop) == Approx(by_steps(c, gas, drop)).epsilon(1e-9));
        }
}

TEST_CASE("the work rises and falls as its header says") {
    const auto work = [](double bore, double closing, double ratio, const Trapped& gas,
                         double drop) {
        return compression_work_j(*cylinder_of(bore, closing, ratio), gas, drop);
    };
    const double is = work(45.0, 30.0, 6.5, kGas, 1.0);
    CHECK(work(45.1, 30.0, 6.5, kGas, 1.0) > is);
    CHECK(work(45.0, 30.1, 6.5, kGas, 1.0) > is);
    CHECK(work(45.0, 30.0, 6.6, kGas, 1.0) > is);
    CHECK(work(45.0, 30.0, 6.5, {.kpa = 101.0, .exponent = 1.3, .under_piston = 0.8}, 1.0) > is);
    CHECK(work(45.0, 30.0, 6.5, {.kpa = 100.0, .exponent = 1.31, .under_piston = 0.8}, 1.0) > is);
    CHECK(work(45.0, 30.0, 6.5, {.kpa = 100.0, .exponent = 1.3, .under_piston = 0.81}, 1.0) < is);
    CHECK(work(45.0, 30.0, 6.5, kGas, 1.1) < is);
    CHECK(work(45.0, 30.0, 6.5, kGas, 30.0) == Approx(0.0));
}

TEST_CASE("a cylinder of next to no bore takes no work, and the figure is one") {
    CHECK(compression_work_j(*cylinder_of(1e-300, 30.0, 6.5), kGas, 1.0) == 0.0);
    CHECK(compression_work_j(*cylinder_of(45.0, 1e-300, 6.5), kGas, 0.0) >= 0.0);
}

TEST_CASE("what makes no cylinder says why") {
    CHECK(cylinder_of(0.0, 30.0, 6.5).reason() == "bore must be greater than 0, not 0");
    CHECK(cylinder_of(45.0, -1.0, 6.5).reason() ==
          "the stroke from where the cylinder closes must be greater than 0, not -1");
    CHECK(cylinder_of(45.0, 30.0, 1.0).reason() ==
          "compression ratio less 1 must be greater than 0, not 0");
}
