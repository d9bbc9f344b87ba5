// SPDX-License-Identifier: MIT
#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <cstring>
#include <limits>
#include <stdexcept>
#include <support/relative.hpp>
#include <trialfit/odds/distribution/sum.hpp>
#include <trialfit/odds/random/philox.hpp>
#include <trialfit/odds/sampling/estimate.hpp>
#include <trialfit/odds/sampling/sampler.hpp>
#include <vector>

namespace odds = trialfit::odds;

namespace {

const std::vector<odds::Law>& laws() {
    static const std::vector<odds::Law> all = {odds::normal(3.0, 0.2),
                                               odds::uniform(0.1, 0.3),
                                               odds::triangular(-1.0, 0.5, 1.0),
                                               odds::triangular(0.0, 0.0, 1.0),
                                               odds::triangular(0.0, 1.0, 1.0),
                                               odds::truncated_normal(2.0, 0.1, 2.5),
                                               odds::arcsine(0.0, 0.03),
                                               odds::gauge(12.5, 0.02, 0.004),
                                               odds::exactly(4.0),
                                               odds::truncated_normal(0.0, 1.0, 0.3)};
    return all;
}

// Several checks over all those laws, with limits some way out.
std::vector<odds::LinearCheck> checks() {
    return {{.coefficients = {1, 1, 0, -1, 0, 0.5, 0, 0, 1, 0}, .lower = 7.2, .upper = 8.3},
            {.coefficients = {0, -1, 1, 0, 1, 0, 2, -1, 0, 0.25},
             .constant = 0.5,
             .lower = -13.0,
             .upper = -10.9},
            {.coefficients = {-1, 0, 0, 0, 0, 1, 0, 0, 0, 0},
             .lower = -std::numeric_limits<double>::infinity(),
             .upper = -0.6}};
}

odds::SumDistribution exact(const odds::LinearCheck& check) {
    std::vector<odds::Contributor> contributors;
    for (std::size_t i = 0; i < laws().size(); ++i)
        contributors.push_back({check.coefficients[i], laws()[i]});
    return odds::SumDistribution(contributors, check.constant);
}

odds::Population population() {
    return {.sizes = laws(), .means = {}, .covariance = {}};
}

}  // namespace

TEST_CASE("Philox4x32-10 gives its authors' known answers") {
    // Random123, kat_vectors (from memory; three 128-bit answers do not agree by chance).
    CHECK(odds::philox({0, 0, 0, 0}, {0, 0}) ==
          odds::PhiloxCounter{0x6627e8d5, 0xe169c58d, 0xbc57ac4c, 0x9b00dbd8});
    CHECK(
        odds::philox({0xffffffff, 0xffffffff, 0xffffffff, 0xffffffff}, {0xffffffff, 0xffffffff}) ==
        odds::PhiloxCounter{0x408f276d, 0x41c83b0e, 0xa20bc7c6, 0x6d5451fd});
    CHECK(
        odds::philox({0x243f6a88, 0x85a308d3, 0x13198a2e, 0x03707344}, {0xa4093822, 0x299f31d0}) ==
        odds::PhiloxCounter{0xd16cfe09, 0x94fdcceb, 0x5001e420, 0x24126ea1});
}

TEST_CASE("the vectorised words are Philox, at every instruction set") {
    for (const odds::Loops& set : odds::loops()) {
        CAPTURE(std::string(set.name));
        const std::uint64_t first = 0xFFFFFF00ULL + odds::kBlock;  // past 32 bits
        std::vector<std::uint32_t> words(12 * odds::kBlock);
        set.words(first, 3, {7, 11}, words.data());
        for (std::size_t s = 0; s < odds::kBlock; ++s) {
            for (std::size_t g = 0; g < 3; ++g) {
                const std::uint64_t at = first + s;
                const auto want = odds::philox(
                    {static_cast<std::uint32_t>(at), static_cast<std::uint32_t>(at >> 32U),
                     static_cast<std::uint32_t>(g), 0},
                    {7, 11});
                for (std::size_t i = 0; i < 4; ++i)
                    REQUIRE(words[(4 * g + i) * odds::kBlock + s] == want[i]);
            }
        }
    }
}

TEST_CASE("every instruction set gives the same bits") {
    const odds::Sampler sampler(population());
    std::vector<odds::LinearRow> rows;
    for (const odds::LinearCheck& check : checks())
        rows.push_back(
            sampler.row(check.coefficients, check.constant, check.lower, check.upper).row);
    const std::size_t count = sampler.slots().size() * odds::kBlock;
    std::vector<float> reference;
    odds::LinearTally wanted;
    for (const odds::Loops& set : odds::loops()) {
        CAPTURE(std::string(set.name));
        std::vector<float> drawn(count);
        odds::LinearTally tally{.rows = std::vector<odds::LinearTally::Row>(rows.size())};
        for (std::uint64_t block = 0; block < 40; ++block) {
            set.draw(block * odds::kBlock, sampler.slots(), {5, 6}, drawn.data());
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
    const odds::Sampler sampler(population());
    const std::size_t n = laws().size();
    constexpr int kPoints = 5;
    std::vector<double> limits;
    std::vector<double> wanted;
    for (const odds::Law& law : laws()) {
        const odds::SumDistribution one(std::vector<odds::Contributor>{{1.0, law}});
        for (const double p : {0.001, 0.05, 0.4, 0.9, 0.999}) {
            limits.push_back(one.quantile(p));
            wanted.push_back(one.cdf(limits.back()));
        }
    }
    const auto evaluator = [&](std::span<const double> values, std::span<double> outputs) {
        for (std::size_t k = 0; k < n * kPoints; ++k)
            for (std::size_t s = 0; s < odds::kBlock; ++s)
                outputs[k * odds::kBlock + s] =
                    values[k / kPoints * odds::kBlock + s] <= limits[k] ? 1.0 : 0.0;
    };
    const auto found = odds::sample(sampler, n * kPoints, evaluator, {.samples = 1'000'000});
    for (std::size_t k = 0; k < n * kPoints; ++k) {
        CAPTURE(k);
        const double p = wanted[k];
        const double error = std::sqrt(p * (1.0 - p) / static_cast<double>(found.samples));
        CHECK(std::abs(found.mean[k] - p) <= 4.0 * error);
    }
}

TEST_CASE("sampled linear checks agree with the exact distribution") {
    const auto found = odds::sample(odds::Sampler(population()), checks(), {.samples = 2'000'000});
    const auto n = static_cast<double>(found.samples);
    for (std::size_t i = 0; i < checks().size(); ++i) {
        CAPTURE(i);
        const odds::LinearCheck check = checks()[i];
        const odds::SumDistribution sum = exact(check);
        const double p = sum.outside(check.lower, check.upper);
        CHECK(p > 1e-4);
        CHECK(std::abs(static_cast<double>(found.outside[i]) / n - p) <
              4.0 * std::sqrt(p * (1.0 - p) / n));
        CHECK(std::abs(found.mean[i] - sum.mean()) < 4.0 * sum.sd() / std::sqrt(n));
        CHECK(relative_error(found.sd[i], sum.sd()) <= 4.0 / std::sqrt(n));
    }
}

TEST_CASE("the same bits for 1, 2 and 7 threads, and the samples of a shorter run first") {
    const odds::Sampler sampler(population());
    const odds::Sampling base{.samples = 700'000, .seed = 42, .threads = 1};
    const auto one = odds::sample(sampler, checks(), base);
    const auto evaluator = [](std::span<const double> values, std::span<double> outputs) {
        for (std::size_t s = 0; s < odds::kBlock; ++s) {
            outputs[s] = values[s] > 3.1 ? 1.0 : 0.0;
            outputs[odds::kBlock + s] = std::sin(values[2 * odds::kBlock + s]);
        }
    };
    const auto free_one = odds::sample(sampler, 2, evaluator, base);
    for (const unsigned threads : {2U, 7U}) {
        odds::Sampling sampling = base;
        sampling.threads = threads;
        const auto many = odds::sample(sampler, checks(), sampling);
        CHECK(many.samples == one.samples);
        CHECK(many.mean == one.mean);
        CHECK(many.sd == one.sd);
        CHECK(many.outside == one.outside);
        CHECK(many.any == one.any);
        CHECK(many.total_squares == one.total_squares);
        const auto free_many = odds::sample(sampler, 2, evaluator, sampling);
        CHECK(free_many.mean == free_one.mean);
        CHECK(free_many.variance == free_one.variance);
        CHECK(free_many.covariance_with_last == free_one.covariance_with_last);
    }
    odds::Sampling other = base;
    other.seed = 43;
    CHECK(odds::sample(sampler, checks(), other).mean != one.mean);

    std::vector<double> first(sampler.variables() * odds::kBlock);
    std::vector<double> again(first.size());
    sampler.draw(17, 42, first);
    sampler.draw(16, 42, again);
    CHECK(first != again);
    sampler.draw(17, 42, again);
    CHECK(first == again);
}

TEST_CASE("sampling stops when it is precise enough, wherever it runs") {
    const odds::Sampler sampler(population());
    odds::Sampling sampling{.samples = 50'000'000, .seed = 1, .threads = 2, .precision = 0.001};
    std::uint64_t last = 0;
    sampling.progress = [&](std::uint64_t done, std::uint64_t most) {
        CHECK(done > last);
        CHECK(most == 50'000'128);
        last = done;
    };
    const auto found = odds::sample(sampler, checks(), sampling);
    CHECK(found.samples == last);
    CHECK(found.samples < 10'000'000);
    const auto p = odds::wilson(found.samples - found.any, found.samples);
    CHECK(p.upper - p.lower <= 0.002);
    sampling.threads = 7;
    last = 0;
    CHECK(odds::sample(sampler, checks(), sampling).any == found.any);
}

TEST_CASE("jointly normal sizes have their covariance") {
    odds::Population joint{.sizes = {odds::uniform(0.0, 1.0)},
                           .means = Eigen::Vector3d(1.0, 2.0, 3.0),
                           .covariance = Eigen::MatrixXd(3, 3)};
    joint.covariance << 0.04, 0.03, 0.0, 0.03, 0.09, -0.02, 0.0, -0.02, 0.01;
    const odds::Sampler sampler(joint);
    REQUIRE(sampler.variables() == 4);
    const auto evaluator = [](std::span<const double> values, std::span<double> outputs) {
        for (std::size_t k = 0; k < 3; ++k)
            for (std::size_t s = 0; s < odds::kBlock; ++s)
                outputs[k * odds::kBlock + s] = values[(k + 1) * odds::kBlock + s];
    };
    const auto found = odds::sample(sampler, 3, evaluator, {.samples = 1'000'000});
    for (Eigen::Index i = 0; i < 3; ++i) {
        const auto k = static_cast<std::size_t>(i);
        const double sd = std::sqrt(joint.covariance(i, i));
        CHECK(std::abs(found.mean[k] - joint.means[i]) < 4e-3 * sd);
        CHECK(relative_error(found.variance[k], joint.covariance(i, i)) <= 6e-3);
        CHECK(std::abs(found.covariance_with_last[k] - joint.covariance(i, 2)) < 4e-3 * sd * 0.1);
    }
    // A linear check sees the same population: x1 - x2 + u has variance 0.04 + 0.09 - 0.06 + 1/12.
    const std::vector<odds::LinearCheck> check = {
        {.coefficients = {1, 1, -1, 0}, .lower = -9, .upper = 9}};
    const auto linear = odds::sample(sampler, check, {.samples = 1'000'000});
    CHECK(relative_error(linear.mean[0], -0.5) <= 4e-3);
    CHECK(relative_error(linear.sd[0], std::sqrt(0.07 + 1.0 / 12.0)) <= 4e-3);
}

TEST_CASE("what cannot be sampled is refused, and what an evaluator throws is thrown on") {
    using doctest::Contains;
    CHECK_THROWS_WITH_AS(
        odds::Sampler({.sizes = {odds::beta(0, 1, 2, 5)}, .means = {}, .covariance = {}}),
        "a beta law other than the arcsine is not sampled", std::invalid_argument);
    odds::Population bad{.sizes = {}, .means = Eigen::Vector2d(0, 0), .covariance = {}};
    CHECK_THROWS_WITH_AS(odds::Sampler{bad}, "the covariance does not match the means",
                         std::invalid_argument);
    bad.covariance = Eigen::Matrix2d{{1.0, 2.0}, {2.0, 1.0}};
    CHECK_THROWS_WITH_AS(odds::Sampler{bad}, "the covariance has a negative eigenvalue",
                         std::invalid_argument);
    const auto throwing = [](std::span<const double>, std::span<double>) {
        throw std::runtime_error("from the evaluator");
    };
    CHECK_THROWS_WITH_AS((void)odds::sample(odds::Sampler(population()), 1, throwing,
                                            {.samples = 100'000, .threads = 3}),
                         "from the evaluator", std::runtime_error);
}

TEST_CASE("Wilson's interval against printed ones") {
    // R. G. Newcombe, "Two-sided confidence intervals for the single proportion", Statistics in
    // Medicine 17, 1998, table I, method 3 (from memory).
    const auto check = [](std::uint64_t r, std::uint64_t n, double lower, double upper) {
        const odds::Probability p = odds::wilson(r, n);
        CHECK(std::abs(p.lower - lower) <= 5e-5);
        CHECK(std::abs(p.upper - upper) <= 5e-5);
        CHECK(p.value == static_cast<double>(r) / static_cast<double>(n));
    };
    check(81, 263, 0.2553, 0.3662);
    check(15, 148, 0.0624, 0.1605);
    check(0, 20, 0.0, 0.1611);
    check(1, 29, 0.0061, 0.1718);
    CHECK(odds::wilson(20, 20).upper == 1.0);
}

TEST_CASE("a control takes the noise out and leaves the value") {
    const odds::Sampler sampler(population());
    std::vector<double> failing;
    for (const odds::LinearCheck& check : checks())
        failing.push_back(exact(check).outside(check.lower, check.upper));
    // The truth to within a hundredth of the interval asked below.
    const auto much = odds::sample(sampler, checks(), {.samples = 60'000'000, .seed = 9});
    const double truth = 1.0 - static_cast<double>(much.any) / static_cast<double>(much.samples);
    int inside = 0;
    for (std::uint64_t seed = 100; seed < 140; ++seed) {
        const auto found = odds::sample(sampler, checks(), {.samples = 30'000, .seed = seed});
        const odds::Probability plain = odds::wilson(found.samples - found.any, found.samples);
        const odds::Probability better = odds::all_hold(found, failing);
        CHECK(better.upper - better.lower < 0.8 * (plain.upper - plain.lower));
        inside += better.lower <= truth && truth <= better.upper ? 1 : 0;
    }
    // 38 expected of 40; fewer than 32 has odds of 1 in 2000.
    CHECK(inside >= 32);
    // With next to no failures seen, Wilson's.
    odds::LinearSampled clean{.samples = 1000, .mean = {}, .sd = {}, .outside = {}};
    CHECK(odds::all_hold(clean, std::vector<double>{1e-6}).lower == odds::wilson(1000, 1000).lower);
}

TEST_CASE("odds as people say them") {
    CHECK(odds::one_in(0.31) == 3.0);
    CHECK(odds::one_in(0.5) == 2.0);
    CHECK(odds::one_in(1.0) == 1.0);
    CHECK(odds::one_in(0.0248) == 40.0);
    CHECK(odds::one_in(1.0 / 1234.0) == 1200.0);
    CHECK(odds::one_in(1e-9) == doctest::Approx(1e9));
    CHECK(std::isinf(odds::one_in(0.0)));
}
