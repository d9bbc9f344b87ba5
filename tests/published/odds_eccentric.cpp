// SPDX-License-Identifier: MIT
// The law of eccentricities in random directions, through whole jobs.
#include <doctest/doctest.h>

#include <cmath>
#include <string>
#include <support/jobs.hpp>
#include <support/published.hpp>
#include <trialfit/numerics/random/estimate.hpp>
#include <trialfit/odds/odds.hpp>
#include <variant>

namespace {

using namespace trialfit;
using namespace trialfit::testing;

constexpr double kWidth = 1.0;

// Plates on one another, each off centre on the last by `off`, round a rotor that runs true: the
// least gap is 1 less the length of the sum.
job::Job plates(int vectors, double off) {
    job::Job job;
    job.parts.push_back(PartOf("case", "face"));
    for (int i = 0; i < vectors; ++i) {
        PartOf plate("plate" + std::to_string(i), "in");
        plate.face("out", given(1.0), "in");
        if (i == vectors - 1) plate.ring("bore", "in", "out", 52.0, 90.0);
        plate.seat(on_face(0, {i, i == 0 ? 0 : 1}));
        job.parts.push_back(plate);
        job.parts.back().centred = job::Centring{.by = job::CentredBy::bolts,
                                                 .on = i,
                                                 .on_written = "it",
                                                 .clearance = given(2.0 * off)};
    }
    PartOf rotor("rotor", "in");
    rotor.turns().face("out", given(30.0), "in").ring("body", "in", "out", 10.0, 50.0);
    rotor.seat(on_face(0, {0, 0}));
    job.parts.push_back(rotor);
    return job;
}

odds::CheckOdds odds_for(const job::Job& job, double at_least) {
    job::Job asked = job;
    asked.radial_clearance = at_least;
    odds::Options options;
    options.sampling = {.samples = 400'000, .seed = 3};
    return std::get<odds::OddsAnswer>(odds::odds(asked, options)).radial.at(0);
}

double standard_error(const odds::CheckOdds& found) {
    return (found.holds.upper - found.holds.lower) / 2.0 / numerics::kNinetyFive;
}

}  // namespace

TEST_CASE("sums of vectors in random directions") {
    trialfit::testing::for_each_case("odds_eccentric.yaml", [](const YAML::Node& each) {
        const auto name = each["case"].as<std::string>();
        CAPTURE(name);
        const auto off = each["given"]["off"].as<double>();
        const YAML::Node expect = each["expect"];
        const job::Job job = plates(each["given"]["vectors"].as<int>(), off);
        const odds::CheckOdds one = odds_for(job, kWidth - off);
        CHECK_FALSE(one.exact);
        const double n = 400'000.0;
        const double mean = (kWidth - one.mean) / off;
        const double variance = one.sd * one.sd / (off * off);
        if (expect["within_one"])
            CHECK(std::abs(one.holds.value - expect["within_one"].as<double>()) <=
                  4.0 * standard_error(one));
        if (expect["mean"])
            CHECK(std::abs(mean - expect["mean"].as<double>()) <= 4.0 * std::sqrt(variance / n));
        // The square's own sd is about its mean.
        const auto square = expect["mean_square"].as<double>();
        CHECK(std::abs(variance + mean * mean - square) <= 4.0 * square / std::sqrt(n));
        if (expect["length"]) {
            const auto found = odds_for(job, kWidth - off * expect["length"].as<double>());
            CHECK(std::abs(found.holds.value - expect["within"].as<double>()) <=
                  4.0 * standard_error(found) + expect["room"].as<double>());
        }
    });
}
