// SPDX-License-Identifier: MIT
#include <doctest/doctest.h>

#include <cmath>
#include <string>
#include <support/published.hpp>
#include <trialfit/numerics/distribution/bivariate_normal.hpp>
#include <trialfit/numerics/distribution/sum.hpp>
#include <trialfit/numerics/random/estimate.hpp>
#include <vector>

namespace {

double relative_error(double got, double wanted) {
    return got == wanted ? 0.0 : std::abs(got - wanted) / std::abs(wanted);
}

namespace numerics = trialfit::numerics;
namespace odds = trialfit::odds;
using Limits = std::vector<std::vector<double>>;

numerics::Population gaps_of(const YAML::Node& given, std::size_t count) {
    const auto upper = given["correlations"].as<std::vector<double>>();
    const auto n = static_cast<Eigen::Index>(count);
    numerics::Population gaps{.sizes = {},
                              .means = Eigen::VectorXd::Zero(n),
                              .covariance = Eigen::MatrixXd::Identity(n, n)};
    std::size_t next = 0;
    for (Eigen::Index i = 0; i < n; ++i)
        for (Eigen::Index j = i + 1; j < n; ++j)
            gaps.covariance(i, j) = gaps.covariance(j, i) = upper.at(next++);
    return gaps;
}

numerics::LinearSampled sampled(const numerics::Population& gaps, const Limits& limits) {
    std::vector<numerics::LinearCheck> checks;
    for (std::size_t i = 0; i < limits.size(); ++i) {
        std::vector<double> coefficients(limits.size(), 0.0);
        coefficients[i] = 1.0;
        checks.push_back(
            {.coefficients = coefficients, .lower = limits[i].at(0), .upper = limits[i].at(1)});
    }
    return numerics::sample(numerics::Sampler(gaps), checks, {.samples = 4'000'000, .seed = 20});
}

}  // namespace

TEST_CASE("joint odds of correlated gaps") {
    trialfit::testing::for_each_case("odds_joint.yaml", [](const YAML::Node& each) {
        CAPTURE(each["case"].as<std::string>());
        const auto limits = each["given"]["limits"].as<Limits>();
        const auto want = each["expect"]["probability"].as<double>();
        const auto within = each["expect"]["within"].as<std::string>();
        const double tolerance = within == "exact" ? 1e-12 : std::stod(within);
        const numerics::Population gaps = gaps_of(each["given"], limits.size());
        if (limits.size() == 2) {
            const double got = numerics::bivariate_rectangle(
                limits[0][0], limits[0][1], limits[1][0], limits[1][1], gaps.covariance(0, 1));
            CAPTURE(got - want);
            CHECK(std::abs(got - want) <= tolerance);
        }
        const numerics::LinearSampled found = sampled(gaps, limits);
        const auto n = static_cast<double>(found.samples);
        const double share = 1.0 - static_cast<double>(found.any) / n;
        CAPTURE(share);
        CHECK(std::abs(share - want) <= 4.0 * std::sqrt(want * (1.0 - want) / n));
    });
}

// Three gaps sharing one housing: H normal(20.30, 0.02); A normal(20.20, 0.015); B normal(20.18,
// 0.02); C normal(20.22, 0.010). 30-digit integrals outside the project, agreeing to 13 digits with
// the R package mvtnorm.
TEST_CASE("three gaps sharing one housing") {
    const numerics::Population sizes{
        .sizes = {numerics::normal(20.30, 0.02), numerics::normal(20.20, 0.015),
                  numerics::normal(20.18, 0.02), numerics::normal(20.22, 0.010)},
        .means = {},
        .covariance = {}};
    std::vector<numerics::LinearCheck> checks;
    std::vector<double> failing;
    for (std::size_t part = 1; part < 4; ++part) {
        std::vector<double> coefficients = {1.0, 0.0, 0.0, 0.0};
        coefficients[part] = -1.0;
        checks.push_back({.coefficients = coefficients, .lower = 0.0, .upper = INFINITY});
        const std::vector<numerics::Contributor> gap = {{1.0, sizes.sizes[0]},
                                                        {-1.0, sizes.sizes[part]}};
        failing.push_back(numerics::SumDistribution(gap).cdf(0.0));
    }
    // Half the last digit given: 5e-17, 5e-17, 5e-16; relative, as the means' last bits move them.
    CHECK(relative_error(failing[0], 3.16712418331e-5) <= 1e-11);
    CHECK(relative_error(failing[1], 1.10452484993e-5) <= 1e-11);
    CHECK(relative_error(failing[2], 1.73309675567e-4) <= 1e-11);

    const numerics::Sampler sampler(sizes);
    const auto found = numerics::sample(sampler, checks, {.samples = 8'000'000, .seed = 3});
    const numerics::Probability plain = numerics::wilson(found.samples - found.any, found.samples);
    const numerics::Probability better = numerics::all_hold(found, failing);
    constexpr double kAllHold = 0.999792903423742;
    CHECK(std::abs(plain.value - kAllHold) < 2.0 * (plain.upper - plain.lower));
    CHECK(std::abs(better.value - kAllHold) < 2.0 * (better.upper - better.lower));
    // Failures seldom fall together, so knowing each alone leaves little to chance.
    CHECK(better.upper - better.lower < 0.4 * (plain.upper - plain.lower));

    const double lower[] = {0.02, 0.05, 0.03};
    const double upper[] = {0.18, 0.19, 0.14};
    for (std::size_t i = 0; i < 3; ++i) {
        checks[i].lower = lower[i];
        checks[i].upper = upper[i];
    }
    const auto windowed = numerics::sample(sampler, checks, {.samples = 4'000'000, .seed = 4});
    const auto n = static_cast<double>(windowed.samples);
    const auto close = [n](std::uint64_t outside, double yield) {
        const double share = 1.0 - static_cast<double>(outside) / n;
        return std::abs(share - yield) < 4.0 * std::sqrt(yield * (1.0 - yield) / n);
    };
    CHECK(close(windowed.any, 0.972487977990));
    CHECK(close(windowed.outside[0], 0.998625724124));
    CHECK(close(windowed.outside[1], 0.986671671219));
    CHECK(close(windowed.outside[2], 0.983681161616));
}
