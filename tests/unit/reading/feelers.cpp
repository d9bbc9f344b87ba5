// SPDX-License-Identifier: MIT
#include <string>

#include "support.hpp"

using namespace trialfit;
using doctest::Approx;

namespace {

job::Job with_feelers(const std::string& rounds, const std::string& more = "") {
    return test::read(
        "trialfit: 1\ngauges: {feeler: 0.02}\nparts:\n"
        "  - part: case\n    faces: {floor: zero}\n"
        "    rings: {cup: {from: floor, above: 30, bore: 50.5 ±0.1, od: 90}}\n"
        "  - part: rotor\n    turns: true\n"
        "    sits: {face: in, against: case.floor}\n"
        "    faces: {in: zero, out: 20 ±0.05 from in}\n"
        "    rings: {body: {from: in, to: out, bore: 10, od: 50 ±0.02}}\n"
        "feelers:\n  - feeler: air gap\n    between: [rotor.body, case.cup]\n"
        "    by: feeler\n" +
        more + "    rounds:\n" + rounds);
}

}  // namespace

TEST_CASE("a round of the feeler: hours and degrees, one leaf or two, height and mark") {
    const job::Job job = with_feelers(
        "      - {rotor_at: 4.5, at: rotor.out, below: 2.5, clock: [12, 3, 180 deg, \"10.5\"],\n"
        "         gaps: [0.25, 0.20..0.25, 8 thou, 150..200 um]}\n");
    REQUIRE(job.feelers.size() == 1);
    const job::Feelers& set = job.feelers[0];
    CHECK(set.name == "air gap");
    CHECK(set.gauge == 0);
    CHECK(set.turning == job::RingRef{1, 0});  // whichever is named first
    CHECK(set.still == job::RingRef{0, 0});
    REQUIRE(set.rounds.size() == 1);
    const job::FeelerRound& round = set.rounds[0];
    CHECK(round.rotor_deg == Approx(135.0).epsilon(1e-14));
    CHECK(round.rotor_said);
    CHECK(round.height == job::FaceRef{1, 1});
    CHECK(round.below == 2.5);
    REQUIRE(round.gaps.size() == 4);
    CHECK(round.gaps[0].clock_deg == Approx(360.0).epsilon(1e-14));
    CHECK(round.gaps[1].clock_deg == Approx(90.0).epsilon(1e-14));
    CHECK(round.gaps[2].clock_deg == 180.0);
    CHECK(round.gaps[3].clock_deg == Approx(315.0).epsilon(1e-14));
    CHECK(round.gaps[0].least == 0.25);
    CHECK(round.gaps[0].most == 0.25);
    CHECK(round.gaps[1].least == 0.20);
    CHECK(round.gaps[1].most == 0.25);
    CHECK(round.gaps[2].least == Approx(0.2032).epsilon(1e-12));
    CHECK(round.gaps[3].most == Approx(0.2).epsilon(1e-12));
}

TEST_CASE("the entry's clock holds for every round that has none of its own") {
    const job::Job job =
        with_feelers("      - {gaps: [0.25, 0.20]}\n      - {clock: [3], gaps: [0.22]}\n",
                     "    clock: [6, 9]\n");
    const auto& rounds = job.feelers.at(0).rounds;
    CHECK(rounds.at(0).gaps.at(1).clock_deg == Approx(270.0).epsilon(1e-14));
    CHECK(rounds.at(1).gaps.at(0).clock_deg == Approx(90.0).epsilon(1e-14));
    CHECK_FALSE(rounds.at(0).rotor_said);
    CHECK_FALSE(rounds.at(0).height);
}
