// SPDX-License-Identifier: MIT
#include <doctest/doctest.h>

#include <string>
#include <trialfit/job/validity/doubts.hpp>
#include <vector>

#include "../../support/jobs.hpp"
#include "support/messages.hpp"

namespace trialfit {

namespace {

// crank (turns, cone, thread), rotor on its cone, nut on the rotor; a stator on the case.
job::Job engine() {
    using testing::given;
    job::Job job;
    job.parts.push_back(testing::PartOf("case", "floor").face("wall", given(60), "floor"));
    testing::PartOf stator("stator", "base");
    stator.face("coil_out", given(14, 0.1), "base").ring("coils", "base", "coil_out", 50, 77);
    stator.seat(testing::on_face(0, {0, 0}));
    job.parts.push_back(stator);
    testing::PartOf crank("crank", "big");
    crank.turns().face("end", given(36), "big").cone("cone", "big", given(16), 0.2, 16);
    crank.thread("big", "end", given(0), given(0)).seat(testing::on_face(0, {0, 0}));
    job.parts.push_back(crank);
    testing::PartOf rotor("rotor", "boss");
    rotor.turns().face("cup_floor", given(14), "boss").face("seat", given(20), "boss");
    rotor.cone("bore", "boss", given(15.6), 0.2, 16).seat(testing::on_cone(0, {2, 0}));
    job.parts.push_back(rotor);
    testing::PartOf nut("nut", "seat");
    nut.turns().face("top", given(8), "seat").thread("seat", "top", given(0), given(0));
    nut.seat(testing::on_face(0, {3, 2}));
    job.parts.push_back(nut);
    return job;
}

job::Check gap(job::FaceRef inboard, job::FaceRef outboard) {
    return {.name = "room",
            .of = job::GapOf{.inboard = inboard, .outboard = outboard},
            .at_least = job::Limit{.value = 0.5}};
}

}  // namespace

TEST_CASE("what is meant as it is written raises no doubt") {
    job::Job job = engine();
    job.checks.push_back(gap({1, 1}, {3, 1}));
    // The crank runs between the walls of its case.
    job.checks.push_back(gap({2, 1}, {0, 1}));
    CHECK(job::doubts(job).empty());
}

TEST_CASE("a gap named outboard face first") {
    job::Job job = engine();
    job.checks.push_back(gap({3, 1}, {1, 1}));
    const std::vector<job::Doubt> doubts = job::doubts(job);
    REQUIRE(doubts.size() == 1);
    const auto* const swapped = testing::message<job::FacesSwapped>(doubts);
    REQUIRE(swapped != nullptr);
    CHECK(swapped->check == "room");
    CHECK(swapped->inboard == "rotor.cup_floor");
    CHECK(swapped->later == "rotor");
    CHECK(swapped->earlier == "stator");
}

TEST_CASE("turns left out on a part of a turning cone or thread") {
    for (const std::size_t part : {2U, 3U, 4U}) {
        CAPTURE(part);
        job::Job job = engine();
        job.parts[part].turns = false;
        CHECK(!job::doubts(job).empty());
    }
    job::Job job = engine();
    job.parts[3].turns = false;
    const std::vector<job::Doubt> doubts = job::doubts(job);
    const auto* const alone = testing::message<job::TurnsAlone>(doubts.front());
    REQUIRE(alone != nullptr);
    CHECK(alone->turns == "crank");
    CHECK(alone->still == "rotor");
    CHECK(alone->joined == job::TurnsAlone::Joined::by_cone);
}

TEST_CASE("an air gap by a part that nothing says the axis of") {
    job::Job job = engine();
    job.parts[3].rings.push_back({.name = "magnets",
                                  .inboard = {.face = 0},
                                  .outboard = {.face = 1},
                                  .bore = testing::given(78),
                                  .outside = testing::given(84)});
    job.air_gaps.push_back(
        {.name = "air gap", .one = {1, 0}, .other = {3, 0}, .at_least = job::Limit{.value = 0.2}});
    // The rotor's cone centres it; the crank's bearing and the stator's fit are not given.
    const std::vector<job::Doubt> doubts = job::doubts(job);
    REQUIRE(doubts.size() == 1);
    const auto* const axis = testing::message<job::AxisNotStated>(doubts);
    REQUIRE(axis != nullptr);
    CHECK(axis->parts == std::vector<std::string>{"stator", "crank"});
    CHECK(axis->check == "air gap");
    job.parts[1].centred = job::Centring{.by = job::CentredBy::reg, .on = 0};
    job.parts[2].centred = job::Centring{.by = job::CentredBy::bearing, .on = 0};
    CHECK(job::doubts(job).empty());
}

TEST_CASE("the wrong unit over the sizes of an M10 engine") {
    job::Job job = engine();
    job.units = quantity::Unit::inch;
    const std::vector<job::Doubt> doubts = job::doubts(job);
    REQUIRE(doubts.size() == 1);
    const auto* const unit = testing::message<job::UnitDoubtful>(doubts);
    REQUIRE(unit != nullptr);
    CHECK(unit->widest_mm == doctest::Approx(1955.8));
    CHECK(unit->thread_mm == 10.0);
    CHECK(unit->units == quantity::Unit::inch);
    job.units = quantity::Unit::um;
    CHECK(job::doubts(job).size() == 1);
}

}  // namespace trialfit
