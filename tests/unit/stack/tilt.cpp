// SPDX-License-Identifier: MIT
#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <string>
#include <support/fewer.hpp>
#include <support/jobs.hpp>
#include <trialfit/stack/check/check.hpp>
#include <trialfit/stack/clearance/clearances.hpp>
#include <trialfit/stack/radial/radial.hpp>
#include <variant>

#include "support/messages.hpp"

using namespace trialfit;
using namespace trialfit::stack;
using namespace trialfit::testing;

namespace {

// A cup of 90 to 100 that turns, 0.5 above a plate of 30 to 120.
job::Job cup_over_plate() {
    job::Job job;
    job.running_clearance = 0.3;
    job.parts.push_back(PartOf("case", "face").face("boss", given(10.5), "face"));
    PartOf plate("plate", "back");
    plate.face("front", given(10.0), "back").ring("disc", "back", "front", 30, 120);
    plate.seat(on_face(0, {0, 0}));
    PartOf cup("cup", "rim");
    cup.turns().face("back", given(20.0), "rim").ring("wall", "rim", "back", 90, 100);
    cup.seat(on_face(0, {0, 1}));
    job.parts.push_back(plate);
    job.parts.push_back(cup);
    return job;
}

CheckAnswer tilt_checked(const job::Job& job) {
    return std::get<CheckAnswer>(check(job, {}));
}

double gap_of_cup(const job::Job& job) {
    return tilt_checked(job).clearances.at(0).gap.nominal;
}

}  // namespace

TEST_CASE("a cocked cup comes nearer by what its edge swings, at any turn") {
    // By hand, and by going round: the edge at radius 50 of a plane with the slope t/d, least
    // height.
    job::Job job = cup_over_plate();
    CHECK(gap_of_cup(job) == doctest::Approx(0.5));
    job.parts[2].face_runout = job::FaceRunout{.is = given(0.30), .dia = 90.0};
    double least = 1.0;
    for (int k = 0; k < 3600; ++k)
        least = std::min(least, 0.5 + 0.30 / 90.0 * 50.0 * std::cos(M_PI * k / 1800.0));
    CHECK(gap_of_cup(job) == doctest::Approx(least).epsilon(1e-12));
    // Of the plate's tilt against it: over a turn both meet.
    job.parts[1].face_runout = job::FaceRunout{.is = given(0.06), .dia = 60.0};
    CHECK(gap_of_cup(job) == doctest::Approx(0.5 - 0.5 / 3.0 - 0.05));
    CHECK_FALSE(tilt_checked(job).clearances.at(0).several_directions);
}

TEST_CASE("the part that carries the cup leans it as well, and then directions matter") {
    job::Job job = cup_over_plate();
    job.parts[0].turns = true;
    job.parts[2].seats[0] = on_face(0, {3, 1});
    PartOf hub("hub", "in");
    hub.turns().face("out", given(0.5), "in");
    hub.seat(on_face(0, {0, 1}));
    job.parts.push_back(hub);
    job.parts[0].faces[1].dimensions[0].distance = given(10.0);
    job.parts[2].face_runout = job::FaceRunout{.is = given(0.09), .dia = 90.0};
    job.parts[3].face_runout = job::FaceRunout{.is = given(0.01), .dia = 20.0};
    // 0.001 and 0.0005 of slope at the radius 50, in one direction at the worst.
    CHECK(gap_of_cup(job) == doctest::Approx(0.5 - 0.05 - 0.025));
    const CheckAnswer answer = tilt_checked(job);
    CHECK(answer.clearances.at(0).several_directions);
    CHECK(message<WorstDirections>(answer.notes) != nullptr);
}

TEST_CASE("an axis with two runouts leans by their difference at the worst") {
    // By hand: 0.02 and 0.04 of indicator reading 20 apart, (0.01 + 0.02)/20 of slope.
    job::Job job = cup_over_plate();
    job.parts[2].runout = {{.is = given(0.02), .face = 0}, {.is = given(0.04), .face = 1}};
    CHECK(gap_of_cup(job) == doctest::Approx(0.5 - 50.0 * 0.03 / 20.0));
    // What its face is found to run out by says it better.
    job.parts[2].face_runout = job::FaceRunout{.is = given(0.0), .dia = 90.0};
    CHECK(gap_of_cup(job) == doctest::Approx(0.5));
}

TEST_CASE("of rings that end at the same two faces, the widest overlap decides") {
    job::Job job = cup_over_plate();
    job.parts[2].face_runout = job::FaceRunout{.is = given(0.30), .dia = 90.0};
    job.parts[2].rings.push_back(job.parts[2].rings[0]);
    job.parts[2].rings[0].name = "hub";
    job.parts[2].rings[0].bore = given(30);
    job.parts[2].rings[0].outside = given(50);
    CHECK(gap_of_cup(job) == doctest::Approx(0.5 - 0.5 / 3.0));
}

TEST_CASE("why names the tilt, and what says nothing of its tilt is named, too") {
    job::Job job = cup_over_plate();
    job.parts[2].face_runout = job::FaceRunout{.is = given(0.30, 0.06), .dia = 90.0};
    const auto found = why_gap(job, "plate.front", "cup.rim", {});
    const auto& answer = std::get<WhyAnswer>(found);
    const auto tilt =
        std::find_if(answer.chain.begin(), answer.chain.end(),
                     [](const Contribution& each) { return each.size == "face runout of cup"; });
    REQUIRE(tilt != answer.chain.end());
    CHECK(tilt->sensitivity == doctest::Approx(-50.0 / 90.0));
    CHECK(tilt->half_width == doctest::Approx(0.06 * 50.0 / 90.0));
    CHECK(answer.value.nominal == doctest::Approx(0.5 - 0.5 / 3.0));
    const CheckAnswer checked = tilt_checked(job);
    const auto* const square = message<TakenSquare>(checked.not_assessed);
    REQUIRE(square != nullptr);
    CHECK(square->parts == std::vector<std::string>{"plate"});
}

TEST_CASE("the skyline of many rings hides nothing that a tilt brings near") {
    // Pairs grow by the square of the rings: fewer under the sanitizers.
    constexpr int kAllUpTo = kSanitized ? kAllPairsUpTo / 4 : kAllPairsUpTo;
    job::Job job = pile(kSanitized ? 50 : 200);
    for (std::size_t i = 0; i < job.parts.size(); i += 3)
        job.parts[i].face_runout = job::FaceRunout{.is = given(0.01), .dia = 20.0};
    const auto built = Model::of(job);
    const auto& model = std::get<Model>(built);
    const auto worst_of = [](const Search& search) {
        double least = 1e9;
        for (const Clearance& pair : search.pairs)
            least = std::min(least, pair.gap.worst.lo);
        return least;
    };
    const Search all = clearances(model, Judge::worst, 1.0, 1'000'000);
    const Search few = clearances(model, Judge::worst, 1.0, kAllUpTo);
    CHECK(few.pairs.size() < all.pairs.size());
    CHECK(worst_of(few) == doctest::Approx(worst_of(all)));
}

TEST_CASE(
    "warm, a register opens by what its two diameters grow apart, and closes no further than "
    "it can") {
    job::Job job;
    job.materials = {{.name = "light", .at = {}, .expansion_per_k = 20e-6},
                     {.name = "heavy", .at = {}, .expansion_per_k = 10e-6}};
    PartOf base("case", "floor");
    base.face("top", given(5.0), "floor").ring("spigot", "floor", "top", 30, 60);
    PartOf stator("stator", "in");
    stator.face("out", given(20.0), "in").ring("poles", "in", "out", 60, 85);
    stator.seat(on_face(0, {0, 0}));
    PartOf rotor("rotor", "in");
    rotor.turns().face("out", given(20.0), "in").ring("cup", "in", "out", 86, 96);
    rotor.seat(on_face(0, {0, 0}));
    job.parts.push_back(base);
    job.parts.push_back(stator);
    job.parts.push_back(rotor);
    job.parts[0].material = "heavy";
    job.parts[1].material = "light";
    job.parts[2].material = "light";
    job.parts[1].centred = job::Centring{.by = job::CentredBy::reg,
                                         .on = 0,
                                         .on_written = "case.spigot",
                                         .clearance = given(0.02, 0.02)};
    job.states = {{.name = "run", .at = {}, .all_c = 120.0, .part_c = {}}};
    const auto in_run = [&] {
        const CheckAnswer answer = tilt_checked(job);
        for (const RadialGap& pair : answer.radial)
            if (pair.inner == "stator.poles")
                return std::find_if(pair.in_states.begin(), pair.in_states.end(),
                                    [](const InState& each) { return each.state == "run"; })
                    ->value.nominal;
        return 0.0;
    };
    // By hand: rotor and stator grow alike by 2e-3; the spigot of 60 falls 60 x 1e-3 behind.
    CHECK(in_run() == doctest::Approx(0.5 * 1.002 - 0.5 * (0.02 + 0.06)));
    // The other way about it closes by 0.06, which is all that it has.
    std::swap(job.parts[0].material, job.parts[1].material);
    job.parts[2].material = "heavy";
    CHECK(in_run() == doctest::Approx(0.5 * 1.001));
    // A wider one closes by as much, both its limits.
    job.parts[1].centred->clearance = given(0.09, 0.01);
    CHECK(in_run() == doctest::Approx(0.5 * 1.001 - 0.5 * 0.03));
    job.parts[1].centred->clearance = given(0.02, 0.02);
    CHECK(message<TakenCold>(tilt_checked(job).not_assessed) == nullptr);
    job.parts[1].rings[0].bore = given(62);
    const CheckAnswer answer = tilt_checked(job);
    const auto* const cold = message<TakenCold>(answer.not_assessed);
    REQUIRE(cold != nullptr);
    REQUIRE(cold->fits.size() == 1);
    CHECK(cold->fits.front().part == "stator");
    CHECK(cold->fits.front().on == "case.spigot");
}
