// SPDX-License-Identifier: MIT
#include <doctest/doctest.h>

#include <cmath>
#include <cstddef>
#include <string>
#include <trialfit/plan/job/job_plan.hpp>
#include <trialfit/stack/check/check.hpp>
#include <vector>

#include "support/jobs.hpp"
#include "support/published.hpp"

using namespace trialfit;
using testing::given;

namespace {

constexpr double kHousing = 60.0;
constexpr double kRough = 0.5;  // half-width of sizes that are only known by a rule

// Lines tell sizes apart that read alike.
job::Given on_line(job::Given size, int line) {
    size.at = {.line = line, .column = 1};
    return size;
}

job::Limit limit(double value) {
    return {.value = value, .in = job::LimitIn::length, .written = "as printed", .at = {}};
}

job::Seat shimmed(const YAML::Node& each, job::FaceRef against, double fitted, int line) {
    job::Seat seat = testing::on_face(0, against);
    job::Shims shims;
    const auto to = each["sizes"]["to"].as<double>();
    const auto by = each["sizes"]["by"].as<double>();
    for (auto size = each["sizes"]["from"].as<double>(); size < to + by / 2.0; size += by)
        shims.stock.push_back({.thickness = given(size), .pieces = {}});
    shims.at_most = 1;
    shims.fitted = {on_line(given(fitted), line)};
    seat.shims = shims;
    return seat;
}

job::Check gap(const std::string& name, job::FaceRef inboard, job::FaceRef outboard) {
    return {.name = name, .at = {}, .of = job::GapOf{.inboard = inboard, .outboard = outboard}};
}

// A shaft on its shims in a housing, under a race on shims of its own where there are two packs.
job::Job job_of(const YAML::Node& each) {
    const auto fitted = each["trial"]["fitted"].as<std::vector<double>>();
    const auto found = each["trial"]["float"].as<double>();
    double length = kHousing - found;
    for (const double thickness : fitted)
        length -= thickness;
    job::Job job;
    testing::PartOf housing("housing", "left");
    job.parts.push_back(housing.face("right", on_line(given(kHousing, kRough), 1), "left"));
    testing::PartOf shaft("shaft", "left");
    shaft.face("right", on_line(given(length, kRough), 2), "left");
    shaft.seat(shimmed(each, {.part = 0, .face = 0}, fitted[0], 3));
    job.parts.push_back(shaft);
    job::FaceRef end{.part = 1, .face = 1};
    if (fitted.size() > 1) {
        testing::PartOf race("race", "face");
        race.seat(shimmed(each, end, fitted[1], 4));
        job.parts.push_back(race);
        end = {.part = 2, .face = 0};
    }
    job::Check play = gap("float", end, {.part = 0, .face = 1});
    play.at_least = limit(each["want"]["least"].as<double>());
    play.at_most = limit(each["want"]["greatest"].as<double>());
    play.aim = limit(each["want"]["aim"].as<double>());
    job.checks.push_back(play);
    if (each["centred_at"]) {
        job::Check centred = gap("centred", {.part = 0, .face = 0}, {.part = 1, .face = 0});
        centred.at_least = limit(0.0);
        centred.aim = limit(each["centred_at"].as<double>());
        job.checks.push_back(centred);
    }
    job::Reading reading{.name = "float on the trial shims", .from = end};
    reading.to = {.part = 0, .face = 1};
    reading.is = on_line(given(found), 5);
    job.readings.push_back(reading);
    return job;
}

}  // namespace

TEST_CASE("shim jobs as printed, planned as whole jobs") {
    testing::for_each_case("plan_jobs.yaml", [](const YAML::Node& each) {
        CAPTURE(each["case"].as<std::string>());
        const job::Job job = job_of(each);
        stack::Options options;
        options.readings = {{.reading = 0, .jams = {}}};
        const auto built = stack::model_for(job, options);
        const auto& model = std::get<stack::Model>(built);
        const plan::PlanAnswer answer = plan::plan(model, {.stack = options});
        REQUIRE(!answer.plans.empty());
        CHECK(answer.proven);
        const auto expect = each["expect"].as<std::vector<double>>();
        REQUIRE(answer.plans.front().shims.size() == expect.size());
        for (std::size_t i = 0; i < expect.size(); ++i)
            CHECK(std::abs(answer.plans.front().shims[i].height - expect[i]) <=
                  each["within"].as<double>());
    });
}
