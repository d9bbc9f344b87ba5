// SPDX-License-Identifier: MIT
// Whole jobs, read from text and answered, against figures from outside the project.
#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <fstream>
#include <iterator>
#include <optional>
#include <stdexcept>
#include <string>
#include <support/published.hpp>
#include <trialfit/reading/read.hpp>
#include <trialfit/stack/check/check.hpp>
#include <variant>

namespace {

using namespace trialfit;

std::string text_of(const YAML::Node& each) {
    if (each["job"]) return each["job"].as<std::string>();
    std::ifstream file(TRIALFIT_SOURCE_DIR "/" + each["file"].as<std::string>());
    REQUIRE(file.good());
    return {std::istreambuf_iterator<char>(file), {}};
}

stack::CheckAnswer answer(const job::Job& job, double inflate) {
    const auto outcome = stack::check(job, {.inflate = inflate, .all_pairs = true});
    REQUIRE(std::holds_alternative<stack::CheckAnswer>(outcome));
    return std::get<stack::CheckAnswer>(outcome);
}

// What a case asks after: one check, or the automatic clearance between two faces.
struct Found {
    stack::Bounds value;
    std::optional<double> share;
    stack::Verdict verdict = stack::Verdict::holds;
    /// Of an air gap with an upper limit.
    std::optional<double> widest{};
};

Found find(const stack::CheckAnswer& answer, const std::string& check) {
    for (const stack::CheckResult& each : answer.checks) {
        if (check.empty() || each.name == check)
            return {.value = each.value,
                    .share = each.share,
                    .verdict = each.verdict,
                    .widest = each.greatest ? std::optional(each.greatest->nominal) : std::nullopt};
    }
    throw std::runtime_error("no check '" + check + "'");
}

Found find(const stack::CheckAnswer& answer, const std::string& inboard,
           const std::string& outboard) {
    for (const stack::Clearance& each : answer.clearances) {
        if (each.inboard == inboard && each.outboard == outboard)
            return {.value = each.gap, .share = std::nullopt, .verdict = each.verdict};
    }
    throw std::runtime_error("no clearance between " + inboard + " and " + outboard);
}

Found find(const stack::CheckAnswer& answer, const YAML::Node& each, const YAML::Node& expect) {
    if (const YAML::Node pair = each["between"])
        return find(answer, pair[0].as<std::string>(), pair[1].as<std::string>());
    return find(answer, expect["check"] ? expect["check"].as<std::string>() : std::string());
}

double half(const stack::Range& range) {
    return (range.hi - range.lo) / 2.0;
}

const char* word(stack::Verdict verdict) {
    switch (verdict) {
        case stack::Verdict::holds:
            return "holds";
        case stack::Verdict::doubtful:
            return "doubtful";
        case stack::Verdict::not_judged:
            return "not judged";
        case stack::Verdict::fails:
            break;
    }
    return "fails";
}

double figure(const std::string& name, const Found& plain, const Found& inflated) {
    const stack::Bounds& value = plain.value;
    if (name == "nominal") return value.nominal;
    if (name == "middle") return value.middle;
    if (name == "least") return value.worst.lo;
    if (name == "greatest") return value.worst.hi;
    if (name == "worst_half") return half(value.worst);
    if (name == "rss_half") return half(value.rss);
    if (name == "inflated_half") return half(inflated.value.rss);
    if (name == "widest") return plain.widest.value();
    if (name == "share") return plain.share.value();
    throw std::runtime_error("no figure is called " + name);
}

void hold(const YAML::Node& expect, const Found& plain, const Found& inflated) {
    const auto within = expect["within"].as<double>();
    int held = 0;
    for (const auto& entry : expect) {
        const auto name = entry.first.as<std::string>();
        CAPTURE(name);
        if (name == "within" || name == "check") continue;
        ++held;
        if (name == "verdict") {
            CHECK(std::string(word(plain.verdict)) == entry.second.as<std::string>());
        } else {
            // Half the last printed digit may itself be met exactly; leave room for its rounding.
            CHECK(std::abs(figure(name, plain, inflated) - entry.second.as<double>()) <=
                  within * (1.0 + 1e-9));
        }
    }
    CHECK(held > 0);
}

void hold_case(const YAML::Node& each) {
    const auto name = each["case"].as<std::string>();
    CAPTURE(name);
    reading::Outcome read = reading::read_job(text_of(each), name);
    const std::string first_fault = read.complaints.empty() ? "" : read.complaints.front().fault;
    CAPTURE(first_fault);
    REQUIRE(read.job.has_value());
    if (each["pushed_home"]) read.job->seat.reset();
    const stack::CheckAnswer plain = answer(*read.job, 1.0);
    const stack::CheckAnswer inflated = answer(*read.job, 1.5);
    REQUIRE(each["expect"].size() > 0);
    for (const YAML::Node& expect : each["expect"])
        hold(expect, find(plain, each, expect), find(inflated, each, expect));
}

}  // namespace

TEST_CASE("one-dimensional stacks from books and papers") {
    testing::for_each_case("whole_stacks.yaml", hold_case);
}

TEST_CASE("stacks from workshop pages, forums and manuals") {
    testing::for_each_case("whole_trade.yaml", hold_case);
}

TEST_CASE("the examples' deciding figures, worked by hand") {
    testing::for_each_case("whole_examples.yaml", hold_case);
}

TEST_CASE("what warming does to a stack") {
    testing::for_each_case("whole_heat.yaml", hold_case);
}

TEST_CASE("radial gaps and tilt, from workshop pages and in closed form") {
    testing::for_each_case("whole_radial.yaml", hold_case);
}
