// SPDX-License-Identifier: MIT
#include <doctest/doctest.h>

#include <trialfit/plan/job/shims.hpp>

#include <cmath>
#include <stdexcept>
#include <string>

#include "support/published.hpp"

using namespace trialfit;

namespace {

job::RoundingWay rule_named(const std::string& name) {
    if (name == "down") return job::RoundingWay::down;
    if (name == "up") return job::RoundingWay::up;
    if (name == "last_digit") return job::RoundingWay::last_digit;
    throw std::runtime_error("no such rule: " + name);
}

// The multiple that the rule brings the length to.
double bring(const YAML::Node& given) {
    const plan::RoundedFrom from = plan::rounded_from(
        {rule_named(given["rule"].as<std::string>()), given["step"].as<double>()});
    const auto length = given["length"].as<double>();
    double size = 0.0;
    while (length > size + from.most)
        size += from.grid;
    CHECK(length >= size + from.least);
    return size;
}

}  // namespace

TEST_CASE("shims are rounded as printed") {
    testing::for_each_case("plan_shims.yaml", [](const YAML::Node& each) {
        CAPTURE(each["case"].as<std::string>());
        CHECK(std::abs(bring(each["rounded"]) - each["expect"].as<double>()) <=
              each["within"].as<double>());
    });
}
