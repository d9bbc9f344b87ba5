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

double bring(const YAML::Node& given, double length) {
    return plan::rounded(length, rule_named(given["rule"].as<std::string>()),
                         given["step"].as<double>());
}

// The shim for a trial: exactly what leaves `leave`, or the size on sale that comes nearest to it.
double shim_for(const YAML::Node& each) {
    const YAML::Node trial = each["trial"];
    const auto leave = trial["leave"].as<double>();
    const double room =
        plan::room_from_trial(trial["fitted"].as<double>(), trial["float"].as<double>());
    const plan::StackWant want =
        plan::stack_for_float(room, trial["least"].as<double>(leave - 0.03),
                              trial["greatest"].as<double>(leave + 0.03), leave);
    if (!each["sizes"]) return *want.aim;
    std::vector<numerics::StockItem> sizes;
    const auto to = each["sizes"]["to"].as<double>();
    const auto by = each["sizes"]["by"].as<double>();
    for (auto size = each["sizes"]["from"].as<double>(); size < to + by / 2.0; size += by)
        sizes.push_back({size, 0.0, 0.0, {}});
    const auto pick = plan::pick_stack(sizes, want, 1, 1);
    return pick ? pick->thickness : 0.0;
}

double worked(const YAML::Node& each) {
    if (each["rounded"]) return bring(each["rounded"], each["rounded"]["length"].as<double>());
    if (each["trial"]) return shim_for(each);
    if (const YAML::Node gasket = each["gasket"]) {
        return bring(gasket, plan::uncompressed(gasket["needed"].as<double>(),
                                                gasket["share"].as<double>()));
    }
    double sum = 0.0;
    for (const YAML::Node& part : each["chain"])
        sum += part.as<double>();
    return sum;
}

}  // namespace

TEST_CASE("shim jobs as printed") {
    testing::for_each_case("plan_shims.yaml", [](const YAML::Node& each) {
        CAPTURE(each["case"].as<std::string>());
        CHECK(std::abs(worked(each) - each["expect"].as<double>()) <= each["within"].as<double>());
    });
}
