// SPDX-License-Identifier: MIT
#include <doctest/doctest.h>

#include <cmath>
#include <string>
#include <support/fewer.hpp>
#include <support/relative.hpp>
#include <trialfit/numerics/distribution/risk_contributors.hpp>
#include <trialfit/numerics/distribution/sum.hpp>
#include <vector>

namespace numerics = trialfit::numerics;
using numerics::Contributor;
using numerics::SumDistribution;

namespace {

struct Example {
    std::string name;
    std::vector<Contributor> contributors;
};

// Sums of every make: smooth, bounded, skewed, one size dominating, many, few, tiny.
std::vector<Example> examples() {
    std::vector<Example> all = {
        {"single uniform", {{-2.0, numerics::uniform(0.1, 0.3)}}},
        {"single triangular", {{1.0, numerics::triangular(-1.0, 0.5, 1.0)}}},
        {"single cut normal", {{1.0, numerics::truncated_normal(2.0, 0.1, 2.5)}}},
        {"single normal", {{0.5, numerics::normal(3.0, 0.2)}}},
        {"single arcsine", {{1.0, numerics::arcsine(0.0, 0.03)}}},
        {"single beta", {{1.0, numerics::beta(1.0, 2.0, 2.0, 5.0)}}},
        {"repeated readings", {{1.0, numerics::gauge(12.5, 0.02, 0.004)}}},
        {"two uniforms", {{1.0, numerics::uniform(-1.0, 1.0)}, {3.0, numerics::uniform(0.0, 0.4)}}},
        {"slopes",
         {{1.0, numerics::triangular(0.0, 0.0, 1.0)}, {-1.0, numerics::triangular(0.0, 1.0, 1.0)}}},
        {"uniform over a thousandth",
         {{1.0, numerics::uniform(-1.0, 1.0)}, {1.0, numerics::normal(0.0, 0.001)}}},
        {"cut normal over a thousandth",
         {{1.0, numerics::truncated_normal(0.0, 1.0, 3.0)},
          {1.0, numerics::uniform(-0.001, 0.001)}}},
        {"narrow cut",
         {{1.0, numerics::truncated_normal(0.0, 1.0, 0.2)}, {1.0, numerics::normal(0.0, 0.1)}}},
        {"mixture",
         {{1.0, numerics::normal(0.0, 0.03)},
          {-1.0, numerics::triangular(-0.1, 0.05, 0.1)},
          {0.5, numerics::uniform(0.0, 0.2)},
          {1.0, numerics::truncated_normal(0.0, 0.03, 3.0)},
          {1.0, numerics::gauge(0.0, 0.02, 0.005)}}},
    };
    Example many{"many", {}};
    for (int i = 0; i < 200; ++i) {
        const double w = 0.01 * (1.0 + i % 7);
        many.contributors.push_back({i % 2 == 0 ? 1.0 : -0.7, numerics::uniform(0.0, w)});
        many.contributors.push_back({1.0, numerics::triangular(0.0, w / 4.0, w)});
    }
    all.push_back(many);
    return all;
}

std::vector<double> points(const SumDistribution& sum) {
    std::vector<double> x;
    for (const double z : {-6.0, -4.0, -2.5, -1.7, -1.0, -0.3, 0.0, 0.2, 0.9, 1.5, 2.2, 3.3, 5.0})
        x.push_back(sum.mean() + z * sum.sd());
    return x;
}

std::vector<Contributor> mapped(const std::vector<Contributor>& from, double factor) {
    std::vector<Contributor> to = from;
    for (Contributor& one : to)
        one.sensitivity *= factor;
    return to;
}

}  // namespace

TEST_CASE("laws every distribution of a sum keeps") {
    for (const Example& example : examples()) {
        CAPTURE(example.name);
        const SumDistribution sum(example.contributors);
        const SumDistribution mirrored(mapped(example.contributors, -1.0));
        const SumDistribution inches(mapped(example.contributors, 1.0 / 25.4));
        double before = 0.0;
        for (const double x : points(sum)) {
            CAPTURE(x);
            const double below = sum.cdf(x);
            CHECK(below >= before);
            before = below;
            CHECK(std::abs(below + sum.survival(x) - 1.0) < 1e-13);
            CHECK(relative_error(mirrored.survival(-x), below) <= 1e-12);
            CHECK(relative_error(mirrored.density(-x), sum.density(x)) <= 1e-11);
            CHECK(relative_error(inches.cdf(x / 25.4), below) <= 1e-11);
            CHECK(relative_error(inches.density(x / 25.4), 25.4 * sum.density(x)) <= 1e-10);
        }
    }
}

TEST_CASE("the density is the slope, and its moments are the moments") {
    const std::vector<Example> all = examples();
    for (std::size_t each = 0; each < all.size(); each += trialfit::testing::stride(4)) {
        const Example& example = all[each];
        CAPTURE(example.name);
        const SumDistribution sum(example.contributors);
        if (example.name == "single arcsine") continue;  // infinite at its ends
        constexpr int kSteps = 1200;
        const double low = std::max(sum.support().lower, sum.mean() - 9.0 * sum.sd());
        const double high = std::min(sum.support().upper, sum.mean() + 9.0 * sum.sd());
        const double step = (high - low) / kSteps;
        double mass = 0.0;
        double second = 0.0;
        double third = 0.0;
        for (int i = 0; i < kSteps; ++i) {
            const double off = low + (i + 0.5) * step - sum.mean();
            const double weight = step * sum.density(sum.mean() + off);
            mass += weight;
            second += weight * off * off;
            third += weight * off * off * off;
        }
        // A midpoint rule over corners: good to some steps squared.
        CHECK(relative_error(mass, 1.0) <= 2e-3);
        CHECK(relative_error(second, sum.variance()) <= 3e-3);
        CHECK(std::abs(third - sum.skewness() * std::pow(sum.sd(), 3)) <
              5e-3 * std::pow(sum.sd(), 3));
        const double x = sum.mean() + 0.37 * sum.sd();
        const double h = 1e-4 * sum.sd();
        CHECK(relative_error((sum.cdf(x + h) - sum.cdf(x - h)) / (2.0 * h), sum.density(x)) <=
              1e-6);
    }
}

TEST_CASE("a quantile is where its probability lies") {
    for (const Example& example : examples()) {
        CAPTURE(example.name);
        const SumDistribution sum(example.contributors);
        // As near as a double comes to the place.
        const auto slack = [&](double x) {
            return 4e-16 * (std::abs(x) + std::abs(sum.mean())) * sum.density(x);
        };
        for (const double p : {1e-12, 1e-6, 0.01, 0.3, 0.5, 0.8}) {
            CAPTURE(p);
            const double x = sum.quantile(p);
            if (sum.density(x) > 1e5 / sum.sd()) continue;  // the arcsine's end, infinitely steep
            CHECK(std::abs(sum.cdf(x) - p) <= 1e-12 * p + slack(x));
        }
        const double x = sum.quantile(1.0 - 1e-6);
        CHECK(std::abs(sum.survival(x) - 1e-6) <= 1e-15 + slack(x));
        CHECK(sum.quantile(0.0) == sum.support().lower);
        CHECK(sum.quantile(1.0) == sum.support().upper);
    }
}

TEST_CASE("one size dominates a thousandfold and a millionfold") {
    // mpmath at 120 digits: truncated powers and repeated integrals of the normal.
    const SumDistribution thousand(std::vector<Contributor>{{1.0, numerics::uniform(-1.0, 1.0)},
                                                            {1.0, numerics::normal(0.0, 1e-3)}});
    CHECK(relative_error(thousand.cdf(-1.005), 2.6730827669164075e-11) <= 1e-11);
    CHECK(relative_error(thousand.cdf(-1.001), 4.1657735293843149e-5) <= 1e-12);
    CHECK(relative_error(thousand.cdf(-1.0), 0.00019947114020071634) <= 1e-13);
    CHECK(relative_error(thousand.cdf(0.3), 0.65) <= 1e-15);
    CHECK(relative_error(thousand.density(-0.9995), 0.34573123063700655) <= 1e-12);

    const SumDistribution million(std::vector<Contributor>{{1.0, numerics::uniform(-1.0, 1.0)},
                                                           {1.0, numerics::normal(0.0, 1e-6)}});
    CHECK(relative_error(million.cdf(-1.000005), 2.6730827669164075e-14) <= 1e-9);
    CHECK(relative_error(million.cdf(-1.0), 1.9947114020071634e-7) <= 1e-12);
    CHECK(relative_error(million.density(0.3), 0.5) <= 1e-13);

    const SumDistribution three(
        std::vector<Contributor>{{1.0, numerics::uniform(-1.0, 1.0)},
                                 {1.0, numerics::uniform(-1e-3, 1e-3)},
                                 {1.0, numerics::triangular(-1e-6, 5e-7, 1e-6)}});
    CHECK(relative_error(three.cdf(-1.0009), 1.245859375e-6) <= 1e-10);
    CHECK(relative_error(three.cdf(-1.0), 0.000124958359375) <= 1e-12);
    CHECK(relative_error(three.cdf(0.25), 0.62499991666666667) <= 1e-14);

    const SumDistribution cut(std::vector<Contributor>{
        {1.0, numerics::truncated_normal(0.0, 1.0, 3.0)}, {1.0, numerics::uniform(-1e-3, 1e-3)}});
    CHECK(relative_error(cut.cdf(-3.0005), 2.7787928458305361e-7) <= 1e-11);
    CHECK(relative_error(cut.cdf(-2.9), 0.00051731479024623094) <= 1e-12);
    CHECK(relative_error(cut.cdf(0.7), 0.75873484265693945) <= 1e-14);

    const SumDistribution normal(std::vector<Contributor>{{1.0, numerics::normal(0.0, 1.0)},
                                                          {1.0, numerics::uniform(-1e-3, 1e-3)}});
    CHECK(relative_error(normal.cdf(-6.0), 9.8659372093057318e-10) <= 1e-12);
}

TEST_CASE("hundreds of contributors, deep in the tail") {
    // Irwin-Hall in exact rational arithmetic.
    const SumDistribution sum(std::vector<Contributor>(200, {1.0, numerics::uniform(0.0, 1.0)}));
    CHECK(relative_error(sum.cdf(70.0), 4.767327162423457e-14) <= 1e-12);
    CHECK(relative_error(sum.cdf(76.5), 3.2947974734233082e-9) <= 1e-12);
    CHECK(relative_error(sum.cdf(95.0), 0.1104224171372114) <= 1e-13);
    CHECK(relative_error(sum.survival(123.5), 3.2947974734233082e-9) <= 1e-12);
    const SumDistribution more(std::vector<Contributor>(500, {1.0, numerics::uniform(0.0, 1.0)}));
    CHECK(relative_error(more.cdf(200.0), 3.3205907125705717e-15) <= 1e-12);
}

TEST_CASE("sums without spread, and ends of the support") {
    const SumDistribution point(std::vector<Contributor>{{2.0, numerics::exactly(3.0)}}, 1.0);
    CHECK(point.mean() == 7.0);
    CHECK(point.sd() == 0.0);
    CHECK(point.skewness() == 0.0);
    CHECK(point.cdf(6.999) == 0.0);
    CHECK(point.cdf(7.0) == 1.0);
    CHECK(point.survival(6.999) == 1.0);
    CHECK(point.survival(7.0) == 0.0);
    CHECK(point.quantile(0.3) == 7.0);
    CHECK(point.outside(7.0, 8.0) + point.between(6.0, 8.0) <= 2.0);
    CHECK(point.between(6.0, 8.0) == 1.0);

    const SumDistribution nothing(std::vector<Contributor>{}, 0.25);
    CHECK(nothing.mean() == 0.25);
    CHECK(nothing.survival(0.0) == 1.0);

    const SumDistribution pair(std::vector<Contributor>{{1.0, numerics::uniform(0.0, 1.0)},
                                                        {-1.0, numerics::uniform(0.0, 2.0)}});
    CHECK(pair.support().lower == -2.0);
    CHECK(pair.support().upper == 1.0);
    CHECK(pair.cdf(-2.0) == 0.0);
    CHECK(pair.survival(1.0) == 0.0);
    CHECK(pair.survival(-2.0) == 1.0);
    CHECK(pair.density(-2.5) == 0.0);
    CHECK(pair.outside(-2.5, 1.5) == 0.0);
    CHECK(pair.between(-INFINITY, INFINITY) == 1.0);
    // A sensitivity of 0 is no contributor.
    const SumDistribution same(std::vector<Contributor>{{1.0, numerics::uniform(0.0, 1.0)},
                                                        {-1.0, numerics::uniform(0.0, 2.0)},
                                                        {0.0, numerics::normal(9, 9)}});
    CHECK(same.cdf(-1.3) == pair.cdf(-1.3));
}

TEST_CASE("what drives the risk") {
    const std::vector<Contributor> sizes = {{1.0, numerics::normal(0.0, 0.3)},
                                            {-2.0, numerics::normal(0.0, 0.2)},
                                            {1.0, numerics::exactly(5.0)}};
    const auto found = numerics::risk_contributors(sizes, 0.0, 4.0, 6.0);
    REQUIRE(found.size() == 3);
    CHECK(found[0].share_of_variance == doctest::Approx(0.36));
    CHECK(found[1].share_of_variance == doctest::Approx(0.64));
    CHECK(found[2].share_of_variance == 0.0);
    const double as_is = SumDistribution(sizes).outside(4.0, 6.0);
    CHECK(relative_error(found[2].outside_if_halved, as_is) <= 1e-14);
    CHECK(relative_error(found[1].outside_if_halved,
                         2.0 * numerics::normal_cdf(-1.0 / std::hypot(0.3, 0.2))) <= 1e-12);
    CHECK(found[1].outside_if_halved < found[0].outside_if_halved);
}
