// SPDX-License-Identifier: MIT
#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <cstring>
#include <limits>
#include <stdexcept>
#include <support/fewer.hpp>
#include <support/relative.hpp>
#include <trialfit/numerics/distribution/sum.hpp>
#include <trialfit/numerics/random/estimate.hpp>
#include <trialfit/numerics/random/philox.hpp>
#include <trialfit/numerics/random/sampler.hpp>
#include <vector>

namespace numerics = trialfit::numerics;

namespace {

const std::vector<numerics::Distribution>& laws() {
    static const std::vector<numerics::Distribution> all = {
        numerics::normal(3.0, 0.2),
        numerics::uniform(0.1, 0.3),
        numerics::triangular(-1.0, 0.5, 1.0),
        numerics::triangular(0.0, 0.0, 1.0),
        numerics::triangular(0.0, 1.0, 1.0),
        numerics::truncated_normal(2.0, 0.1, 2.5),
        numerics::arcsine(0.0, 0.03),
        numerics::gauge(12.5, 0.02, 0.004),
        numerics::exactly(4.0),
        numerics::truncated_normal(0.0, 1.0, 0.3)};
    return all;
}

// Several checks over all those laws, with limits some way out.
std::vector<numerics::LinearCheck> checks() {
    return {{.coefficients = {1, 1, 0, -1, 0, 0.5, 0, 0, 1, 0}, .lower = 7.2, .upper = 8.3},
            {.coefficients = {0, -1, 1, 0, 1, 0, 2, -1, 0, 0.25},
             .constant = 0.5,
             .lower = -13.0,
             .upper = -10.9},
            {.coefficients = {-1, 0, 0, 0, 0, 1, 0, 0, 0, 0},
             .lower = -std::numeric_limits<double>::infinity(),
             .upper = -0.6}};
}

numerics::SumDistribution exact(const numerics::LinearCheck& check) {
    std::vector<numerics::Contributor> contributors;
    for (std::size_t i = 0; i < laws().size(); ++i)
        contributors.push_back({check.coefficients[i], laws()[i]});
    return numerics::SumDistribution(contributors, check.constant);
}

numerics::Population population() {
    return {.sizes = laws(), .means = {}, .covariance = {}};
}

}  // namespace

TEST_CASE("Philox4x32-10 gives its authors' known answers") {
    // Random123, kat_vectors (from memory; three 128-bit answers do not agree by chance).
    CHECK(numerics::philox({0, 0, 0, 0}, {0, 0}) ==
          numerics::PhiloxCounter{0x6627e8d5, 0xe169c58d, 0xbc57ac4c, 0x9b00dbd8});
    CHECK(numerics::philox({0xffffffff, 0xffffffff, 0xffffffff, 0xffffffff},
                           {0xffffffff, 0xffffffff}) ==
          numerics::PhiloxCounter{0x408f276d, 0x41c83b0e, 0xa20bc7c6, 0x6d5451fd});
    CHECK(numerics::philox({0x243f6a88, 0x85a308d3, 0x13198a2e, 0x03707344},
                           {0xa4093822, 0x299f31d0}) ==
          numerics::PhiloxCounter{0xd16cfe09, 0x94fdcceb, 0x5001e420, 0x24126ea1});
}

TEST_CASE("the vectorised words are Philox, at every instruction set") {
    for (const numerics::Loops& set : numerics::loops()) {
        CAPTURE(std::string(set.name));
        const std::uint64_t first = 0xFFFFFF00ULL + numerics::kBlock;  // past 32 bits
        std::vector<std::uint32_t> words(12 * numerics::kBlock);
        set.words(first, 3, {7, 11}, words.data());
        for (std::size_t s = 0; s < numerics::kBlock; ++s) {
            for (std::size_t g = 0; g < 3; ++g) {
                const std::uint64_t at = first + s;
                const auto want = numerics::philox(
                    {static_cast<std::uint32_t>(at), static_cast<std::uint32_t>(at >> 32U),
                     static_cast<std::uint32_t>(g), 0},
                    {7, 11});
                for (std::size_t i = 0; i < 4; ++i)
                    REQUIRE(words[(4 * g + i) * numerics::kBlock + s] == want[i]);
            }
        }
    }
}

TEST_CASE("every instruction set gives the same bits") {
    const numerics::Sampler sampler(population());
    std::vector<numerics::LinearRow> rows;
    for (const numerics::LinearCheck& check : checks())
        rows.push_back(
            sampler.row(check.coefficients, check.constant, check.lower, check.upper).row);
    const std::size_t count = sampler.slots().size() * numerics::kBlock;
    std::vector<float> reference;
    numerics::LinearTally wanted;
    for (const numerics::Loops& set : numerics::loops()) {
        CAPTURE(std::string(set.name));
        std::vector<float> drawn(count);
        numerics::LinearTally tally{.rows = std::vector<numerics::LinearTally::Row>(rows.size())};
        for (std::uint64_t block = 0; block < 40; ++block) {
            set.draw(block * numerics::kBlock, sampler.slots(), {5, 6}, drawn.data());
            set.tally(rows, drawn.data(), tally);
        }
        if (reference.empty()) {
            reference = drawn;
            wanted = tally;
        }
        CHECK(std::memcmp(drawn.data(), reference.data(), count * sizeof(float)) == 0);
        CHECK(tally.any == wanted.any);
        CHECK(tally.total == wanted.total);
        CHECK(tally.total_squares == wanted.total_squares);
        for (std::size_t i = 0; i < rows.size(); ++i) {
            CHECK(tally.rows[i].sum == wanted.rows[i].sum);
            CHECK(tally.rows[i].squares == wanted.rows[i].squares);
            CHECK(tally.rows[i].outside == wanted.rows[i].outside);
        }
    }
}

TEST_CASE("each law's samples follow its exact distribution") {
    const numerics::Sampler sampler(population());
    const std::size_t n = laws().size();
    constexpr int kPoints = 5;
    std::vector<double> limits;
    std::vector<double> wanted;
    for (const numerics::Distribution& law : laws()) {
        const numerics::SumDistribution one(std::vector<numerics::Contributor>{{1.0, law}});
        for (const double p : {0.001, 0.05, 0.4, 0.9, 0.999}) {
            limits.push_back(one.quantile(p));
            wanted.push_back(one.cdf(limits.back()));
        }
    }
    const auto evaluator = [&](std::span<const double> values, std::span<double> outputs) {
        for (std::size_t k = 0; k < n * kPoints; ++k)
            for (std::size_t s = 0; s < numerics::kBlock; ++s)
                outputs[k * numerics::kBlock + s] =
                    values[k / kPoints * numerics::kBlock + s] <= limits[k] ? 1.0 : 0.0;
    };
    const auto found = numerics::sample(sampler, n * kPoints, evaluator, {.samples = 1'000'000});
    for (std::size_t k = 0; k < n * kPoints; ++k) {
        CAPTURE(k);
        const double p = wanted[k];
        const double error = std::sqrt(p * (1.0 - p) / static_cast<double>(found.samples));
        CHECK(std::abs(found.mean[k] - p) <= 4.0 * error);
    }
}

TEST_CASE("sampled linear checks agree with the exact distribution") {
    const auto found =
        numerics::sample(numerics::Sampler(population()), checks(), {.samples = 2'000'000});
    const auto n = static_cast<double>(found.samples);
    for (std::size_t i = 0; i < checks().size(); ++i) {
        CAPTURE(i);
        const numerics::LinearCheck check = checks()[i];
        const numerics::SumDistribution sum = exact(check);
        const double p = sum.outside(check.lower, check.upper);
        CHECK(p > 1e-4);
        CHECK(std::abs(static_cast<double>(found.outside[i]) / n - p) <
              4.0 * std::sqrt(p * (1.0 - p) / n));
        CHECK(std::abs(found.mean[i] - sum.mean()) < 4.0 * sum.sd() / std::sqrt(n));
        CHECK(relative_error(found.sd[i], sum.sd()) <= 4.0 / std::sqrt(n));
    }
}

TEST_CASE("the same bits for 1, 2 and 7 threads, and the samples of a shorter run first") {
    const numerics::Sampler sampler(population());
    const numerics::Sampling base{.samples = 700'000, .seed = 42, .threads = 1};
    const auto one = numerics::sample(sampler, checks(), base);
    const auto evaluator = [](std::span<const double> values, std::span<double> outputs) {
        for (std::size_t s = 0; s < numerics::kBlock; ++s) {
            outputs[s] = values[s] > 3.1 ? 1.0 : 0.0;
            outputs[numerics::kBlock + s] = std::sin(values[2 * numerics::kBlock + s]);
        }
    };
    const auto free_one = numerics::sample(sampler, 2, evaluator, base);
    for (const unsigned threads : {2U, 7U}) {
        numerics::Sampling sampling = base;
        sampling.threads = threads;
        const auto many = numerics::sample(sampler, checks(), sampling);
        CHECK(many.samples == one.samples);
        CHECK(many.mean == one.mean);
        CHECK(many.sd == one.sd);
        CHECK(many.outside == one.outside);
        CHECK(many.any == one.any);
        CHECK(many.total_squares == one.total_squares);
        const auto free_many = numerics::sample(sampler, 2, evaluator, sampling);
        CHECK(free_many.mean == free_one.mean);
        CHECK(free_many.variance == free_one.variance);
        CHECK(free_many.covariance_with_last == free_one.covariance_with_last);
    }
    numerics::Sampling other = base;
    other.seed = 43;
    CHECK(numerics::sample(sampler, checks(), other).mean != one.mean);

    std::vector<double> first(sampler.variables() * numerics::kBlock);
    std::vector<double> again(first.size());
    sampler.draw(17, 42, first);
    sampler.draw(16, 42, again);
    CHECK(first != again);
    sampler.draw(17, 42, again);
    CHECK(first == again);
}

TEST_CASE("sampling stops when it is precise enough, wherever it runs") {
    const numerics::Sampler sampler(population());
    numerics::Sampling sampling{.samples = 50'000'000, .seed = 1, .threads = 2, .precision = 0.001};
    std::uint64_t last = 0;
    sampling.progress = [&](std::uint64_t done, std::uint64_t most) {
        CHECK(done > last);
        CHECK(most == 50'000'128);
        last = done;
    };
    const auto found = numerics::sample(sampler, checks(), sampling);
    CHECK(found.samples == last);
    CHECK(found.samples < 10'000'000);
    const auto p = numerics::wilson(found.samples - found.any, found.samples);
    CHECK(p.upper - p.lower <= 0.002);
    sampling.threads = 7;
    last = 0;
    CHECK(numerics::sample(sampler, checks(), sampling).any == found.any);
}

TEST_CASE("jointly normal sizes have their covariance") {
    numerics::Population joint{.sizes = {numerics::uniform(0.0, 1.0)},
                               .means = Eigen::Vector3d(1.0, 2.0, 3.0),
                               .covariance = Eigen::MatrixXd(3, 3)};
    joint.covariance << 0.04, 0.03, 0.0, 0.03, 0.09, -0.02, 0.0, -0.02, 0.01;
    const numerics::Sampler sampler(joint);
    REQUIRE(sampler.variables() == 4);
    const auto evaluator = [](std::span<const double> values, std::span<double> outputs) {
        for (std::size_t k = 0; k < 3; ++k)
            for (std::size_t s = 0; s < numerics::kBlock; ++s)
                outputs[k * numerics::kBlock + s] = values[(k + 1) * numerics::kBlock + s];
    };
    const auto found = numerics::sample(sampler, 3, evaluator, {.samples = 1'000'000});
    for (Eigen::Index i = 0; i < 3; ++i) {
        const auto k = static_cast<std::size_t>(i);
        const double sd = std::sqrt(joint.covariance(i, i));
        CHECK(std::abs(found.mean[k] - joint.means[i]) < 4e-3 * sd);
        CHECK(relative_error(found.variance[k], joint.covariance(i, i)) <= 6e-3);
        CHECK(std::abs(found.covariance_with_last[k] - joint.covariance(i, 2)) < 4e-3 * sd * 0.1);
    }
    // A linear check sees the same population: x1 - x2 + u has variance 0.04 + 0.09 - 0.06 + 1/12.
    const std::vector<numerics::LinearCheck> check = {
        {.coefficients = {1, 1, -1, 0}, .lower = -9, .upper = 9}};
    const auto linear = numerics::sample(sampler, check, {.samples = 1'000'000});
    CHECK(relative_error(linear.mean[0], -0.5) <= 4e-3);
    CHECK(relative_error(linear.sd[0], std::sqrt(0.07 + 1.0 / 12.0)) <= 4e-3);
}

TEST_CASE("sizes drawn and then adjusted have the covariance of the adjusted sizes") {
    // x1 - x2 + x3 is measured: V - G A V with V = diag(sd^2) and G = V A' / (A V A').
    const Eigen::Vector3d sd(0.2, 0.3, 0.1);
    const Eigen::RowVector3d a(1.0, -1.0, 1.0);
    const Eigen::Matrix3d v = sd.cwiseAbs2().asDiagonal();
    const Eigen::Matrix3d all = v - v * a.transpose() * a * v / (a * v * a.transpose()).value();
    numerics::Population adjusted{.sizes = {numerics::uniform(0.0, 1.0)},
                                  .means = Eigen::Vector3d(1.0, 2.0, 3.0),
                                  .covariance = {}};
    const Eigen::MatrixXd gain = v * a.transpose() / (a * v * a.transpose()).value();
    const Eigen::MatrixXd rows = a;
    adjusted.adjusted = {.sd = sd, .gain = gain.sparseView(), .rows = rows.sparseView()};
    const Eigen::Vector3d one(1.0, 2.0, -0.5);
    const Eigen::Vector3d other(0.0, 1.0, 1.0);
    CHECK(relative_error(adjusted.joint_covariance(one, other), one.dot(all * other)) <= 1e-12);

    const numerics::Sampler sampler(adjusted);
    REQUIRE(sampler.variables() == 4);
    const auto evaluator = [](std::span<const double> values, std::span<double> outputs) {
        for (std::size_t k = 0; k < 3; ++k)
            for (std::size_t s = 0; s < numerics::kBlock; ++s)
                outputs[k * numerics::kBlock + s] = values[(k + 1) * numerics::kBlock + s];
    };
    const auto found = numerics::sample(sampler, 3, evaluator, {.samples = 1'000'000});
    for (Eigen::Index i = 0; i < 3; ++i) {
        const auto k = static_cast<std::size_t>(i);
        CHECK(std::abs(found.mean[k] - adjusted.means[i]) < 4e-3 * sd[i]);
        CHECK(relative_error(found.variance[k], all(i, i)) <= 6e-3);
        CHECK(std::abs(found.covariance_with_last[k] - all(i, 2)) < 4e-3 * sd[i] * 0.1);
    }
    const std::vector<numerics::LinearCheck> check = {
        {.coefficients = {1, 1, 2, -0.5}, .lower = -9, .upper = 9}};
    const auto linear = numerics::sample(sampler, check, {.samples = 1'000'000});
    CHECK(relative_error(linear.mean[0], 4.0) <= 4e-3);
    CHECK(relative_error(linear.sd[0], std::sqrt(one.dot(all * one) + 1.0 / 12.0)) <= 4e-3);
    adjusted.means = Eigen::Vector2d(0.0, 0.0);
    CHECK_THROWS_WITH_AS((void)numerics::Sampler(adjusted),
                         "the adjusted sizes do not match the means", std::invalid_argument);
}

TEST_CASE("what cannot be sampled is refused, and what an evaluator throws is thrown on") {
    using doctest::Contains;
    CHECK_THROWS_WITH_AS(
        numerics::Sampler({.sizes = {numerics::beta(0, 1, 2, 5)}, .means = {}, .covariance = {}}),
        "a beta law other than the arcsine is not sampled", std::invalid_argument);
    numerics::Population bad{.sizes = {}, .means = Eigen::Vector2d(0, 0), .covariance = {}};
    CHECK_THROWS_WITH_AS(numerics::Sampler{bad}, "the covariance does not match the means",
                         std::invalid_argument);
    bad.covariance = Eigen::Matrix2d{{1.0, 2.0}, {2.0, 1.0}};
    CHECK_THROWS_WITH_AS(numerics::Sampler{bad}, "the covariance has a negative eigenvalue",
                         std::invalid_argument);
    const auto throwing = [](std::span<const double>, std::span<double>) {
        throw std::runtime_error("from the evaluator");
    };
    CHECK_THROWS_WITH_AS((void)numerics::sample(numerics::Sampler(population()), 1, throwing,
                                                {.samples = 100'000, .threads = 3}),
                         "from the evaluator", std::runtime_error);
}

TEST_CASE("Wilson's interval against printed ones") {
    // R. G. Newcombe, "Two-sided confidence intervals for the single proportion", Statistics in
    // Medicine 17, 1998, table I, method 3 (from memory).
    const auto check = [](std::uint64_t r, std::uint64_t n, double lower, double upper) {
        const numerics::Probability p = numerics::wilson(r, n);
        CHECK(std::abs(p.lower - lower) <= 5e-5);
        CHECK(std::abs(p.upper - upper) <= 5e-5);
        CHECK(p.value == static_cast<double>(r) / static_cast<double>(n));
    };
    check(81, 263, 0.2553, 0.3662);
    check(15, 148, 0.0624, 0.1605);
    check(0, 20, 0.0, 0.1611);
    check(1, 29, 0.0061, 0.1718);
    CHECK(numerics::wilson(20, 20).upper == 1.0);
}

TEST_CASE("a control takes the noise out and leaves the value") {
    const numerics::Sampler sampler(population());
    std::vector<double> failing;
    for (const numerics::LinearCheck& check : checks())
        failing.push_back(exact(check).outside(check.lower, check.upper));
    // The truth to within a hundredth of the interval asked below.
    const auto much = numerics::sample(
        sampler, checks(), {.samples = trialfit::testing::fewer(60'000'000), .seed = 9});
    const double truth = 1.0 - static_cast<double>(much.any) / static_cast<double>(much.samples);
    int inside = 0;
    for (std::uint64_t seed = 100; seed < 140; ++seed) {
        const auto found = numerics::sample(sampler, checks(), {.samples = 30'000, .seed = seed});
        const numerics::Probability plain =
            numerics::wilson(found.samples - found.any, found.samples);
        const numerics::Probability better = numerics::all_hold(found, failing);
        CHECK(better.upper - better.lower < 0.8 * (plain.upper - plain.lower));
        inside += better.lower <= truth && truth <= better.upper ? 1 : 0;
    }
    // 38 expected of 40; fewer than 32 has odds of 1 in 2000.
    CHECK(inside >= 32);
    // With next to no failures seen, Wilson's.
    numerics::LinearSampled clean{.samples = 1000, .mean = {}, .sd = {}, .outside = {}};
    CHECK(numerics::all_hold(clean, std::vector<double>{1e-6}).lower ==
          numerics::wilson(1000, 1000).lower);
}

TEST_CASE("odds as people say them") {
    CHECK(numerics::one_in(0.31) == 3.0);
    CHECK(numerics::one_in(0.5) == 2.0);
    CHECK(numerics::one_in(1.0) == 1.0);
    CHECK(numerics::one_in(0.0248) == 40.0);
    CHECK(numerics::one_in(1.0 / 1234.0) == 1200.0);
    CHECK(numerics::one_in(1e-9) == doctest::Approx(1e9));
    CHECK(std::isinf(numerics::one_in(0.0)));
}
