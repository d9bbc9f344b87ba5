// SPDX-License-Identifier: MIT
#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <limits>
#include <map>
#include <string>
#include <support/published.hpp>
#include <trialfit/numerics/distribution/sum.hpp>
#include <trialfit/odds/sampling/distribution_of.hpp>
#include <vector>

namespace {

namespace numerics = trialfit::numerics;
namespace odds = trialfit::odds;
namespace quantity = trialfit::quantity;

quantity::Shape shape_of(const std::string& name) {
    static const std::map<std::string, quantity::Shape> shapes = {
        {"normal", quantity::Shape::normal},
        {"uniform", quantity::Shape::uniform},
        {"triangular", quantity::Shape::triangular}};
    return shapes.at(name);
}

numerics::Distribution law_of(const YAML::Node& size) {
    if (size["nominal"]) {
        quantity::Size written = quantity::toleranced(
            size["nominal"].as<double>(), size["minus"].as<double>(), size["plus"].as<double>());
        written.spread.shape = shape_of(size["shape"].as<std::string>());
        return odds::distribution_of(written);
    }
    const auto numbers = [&](const char* key) {
        return size[key] ? size[key].as<std::vector<double>>() : std::vector<double>{};
    };
    if (const auto n = numbers("normal"); !n.empty()) return numerics::normal(n[0], n[1]);
    if (const auto n = numbers("uniform"); !n.empty()) return numerics::uniform(n[0], n[1]);
    if (const auto n = numbers("triangular"); !n.empty())
        return numerics::triangular(n[0], n[1], n[2]);
    if (const auto n = numbers("cut_normal"); !n.empty())
        return numerics::truncated_normal(n[0], n[1], n[2]);
    if (const auto n = numbers("beta"); !n.empty()) return numerics::beta(n[0], n[1], n[2], n[3]);
    const auto n = numbers("arcsine");
    REQUIRE(n.size() == 2);
    return numerics::arcsine(n[0], n[1]);
}

std::vector<numerics::Contributor> contributors_of(const YAML::Node& given) {
    std::vector<numerics::Contributor> contributors;
    for (const YAML::Node& size : given["sizes"])
        contributors.push_back({size["times"].as<double>(), law_of(size)});
    return contributors;
}

// What the last bits of the written sizes add up to.
double last_bits(const std::vector<numerics::Contributor>& contributors) {
    double sum = 0.0;
    for (const auto& [times, law] : contributors)
        sum += std::abs(times) * std::max(std::abs(law.from), std::abs(law.to));
    return sum * std::numeric_limits<double>::epsilon();
}

// A decimal, or a fraction "a/b".
double number(const YAML::Node& node) {
    const auto text = node.as<std::string>();
    const std::size_t slash = text.find('/');
    if (slash == std::string::npos) return std::stod(text);
    return std::stod(text.substr(0, slash)) / std::stod(text.substr(slash + 1));
}

double value_of(const numerics::SumDistribution& sum, const YAML::Node& expected) {
    if (expected["mean"]) return sum.mean();
    if (expected["sd"]) return sum.sd();
    if (expected["variance"]) return sum.variance();
    if (expected["skewness"]) return sum.skewness();
    if (expected["below"]) return sum.cdf(expected["below"].as<double>());
    if (expected["above"]) return sum.survival(expected["above"].as<double>());
    if (expected["quantile"]) return sum.quantile(expected["quantile"].as<double>());
    const auto limits = expected["between"].as<std::vector<double>>();
    return sum.between(limits[0], limits[1]);
}

YAML::Node wanted(const YAML::Node& expected) {
    for (const char* moment : {"mean", "sd", "variance", "skewness"})
        if (expected[moment]) return expected[moment];
    return expected["is"];
}

void hold(const std::string& file) {
    trialfit::testing::for_each_case(file, [](const YAML::Node& each) {
        CAPTURE(each["case"].as<std::string>());
        const auto contributors = contributors_of(each["given"]);
        const numerics::SumDistribution sum(contributors,
                                            each["given"]["constant"].as<double>(0.0));
        for (const YAML::Node& expected : each["expect"]) {
            CAPTURE(YAML::Dump(expected));
            const double want = number(wanted(expected));
            const auto within = expected["within"].as<std::string>();
            const YAML::Node point = expected["below"] ? expected["below"] : expected["above"];
            const double moved =
                point ? sum.density(point.as<double>()) * last_bits(contributors) : 0.0;
            const double tolerance = (within == "exact" ? 1e-12 * want : std::stod(within)) + moved;
            const double got = value_of(sum, expected);
            CAPTURE(got);
            CHECK(std::abs(got - want) <= tolerance);
        }
    });
}

}  // namespace

TEST_CASE("the odds of published stacks") {
    hold("odds_sums_stacks.yaml");
}

TEST_CASE("published and worked-out distributions of sums") {
    hold("odds_sums.yaml");
}
