// SPDX-License-Identifier: MIT
#include <doctest/doctest.h>

#include <cmath>
#include <memory>
#include <numbers>
#include <support/jobs.hpp>
#include <trialfit/survey/survey.hpp>
#include <vector>

namespace job = trialfit::job;
using namespace trialfit::survey;
using namespace trialfit::testing;
using doctest::Approx;

namespace {

// The gap that a stator off by `offset` towards `at_deg` leaves round a rotor eccentric by `runout`
// towards its mark.
double feeler_gap(double clock, double rotor, double offset, double at_deg, double runout) {
    const auto towards = [](double degrees) {
        return std::cos(degrees * std::numbers::pi / 180.0);
    };
    return 0.25 + offset * towards(clock - at_deg) - runout * towards(clock - rotor);
}

// A rotor of 50 in a stator of 50.5, both 20 long; the stator on a plate that bolts hold.
job::Job alternator(double offset, double runout,
                    const std::vector<double>& rotor_degrees = {0.0, 180.0}) {
    job::Job job;
    job.gauges.push_back({.name = "feeler", .half_width = 0.01});
    job.parts.push_back(PartOf("case", "face"));
    PartOf plate("plate", "in");
    plate.face("out", given(5.0), "in").ring("disc", "in", "out", 70, 120);
    plate.seat(on_face(0, {0, 0}));
    job.parts.push_back(plate);
    PartOf stator("stator", "in");
    stator.face("out", given(20.0), "in").ring("poles", "in", "out", 50.5, 90);
    stator.seat(on_face(0, {1, 1}));
    job.parts.push_back(stator);
    PartOf rotor("rotor", "in");
    rotor.turns().face("out", given(27.0), "in").ring("body", "in", "out", 10, 50);
    rotor.seat(on_face(0, {0, 0}));
    job.parts.push_back(rotor);
    job.parts[1].centred = job::Centring{
        .by = job::CentredBy::bolts, .on = 0, .on_written = "case", .clearance = given(0.1, 0.1)};
    job.parts[2].centred = job::Centring{.by = job::CentredBy::reg,
                                         .on = 1,
                                         .on_written = "plate.disc",
                                         .clearance = given(0.01, 0.01)};
    job.parts[3].centred = job::Centring{
        .by = job::CentredBy::bearing, .on = 0, .on_written = "case", .clearance = given(0.0)};
    job::Feelers set{.name = "air gap", .still = {2, 0}, .turning = {3, 0}, .gauge = 0};
    for (const double rotor_deg : rotor_degrees) {
        job::FeelerRound round{.rotor_deg = rotor_deg, .rotor_said = true};
        for (const double clock : {0.0, 90.0, 180.0, 270.0}) {
            const double gap = feeler_gap(clock, rotor_deg, offset, 300.0, runout);
            round.gaps.push_back({.clock_deg = clock, .least = gap, .most = gap});
        }
        set.rounds.push_back(round);
    }
    job.feelers.push_back(set);
    return job;
}

void ask(job::Job& job, double at_least, double at_most) {
    job.air_gaps.push_back({.name = "book",
                            .one = {3, 0},
                            .other = {2, 0},
                            .at_least = job::Limit{.value = at_least},
                            .at_most = job::Limit{.value = at_most}});
}

FeelersFound feelers_of(const job::Job& job) {
    return std::get<SurveyAnswer>(survey(job)).feelers.at(0);
}

}  // namespace

TEST_CASE("an offset towards 10 is evened up by moving the plate towards 4, not the stator") {
    const FeelersFound found = feelers_of(alternator(0.05, 0.01));
    CHECK(found.judgement == Judgement::agree);
    CHECK(found.freedom == 3);
    REQUIRE(found.even_up);
    CHECK(found.even_up->part == "plate");
    CHECK(found.even_up->towards_deg == Approx(120.0).epsilon(1e-12));
    CHECK(found.even_up->by.is == Approx(0.05).epsilon(1e-12));
    // 8 readings of sd 0.01/sqrt(3): each component of the offset has sd sqrt(2/8) of that.
    CHECK(found.even_up->by.sd == Approx(0.01 / std::sqrt(3.0) / 2.0).epsilon(1e-12));
    CHECK(found.even_up->least.is == Approx(0.24).epsilon(1e-12));
    CHECK(found.even_up->most.is == Approx(0.26).epsilon(1e-12));
    CHECK(*found.even_up->room == 0.2);
    CHECK(found.least_now->is == Approx(0.19).epsilon(1e-12));
    REQUIRE(found.offset_stated);
    CHECK(*found.offset_stated == Approx(0.11).epsilon(1e-12));
    CHECK_FALSE(found.runout_stated);  // the job gives none
    CHECK(found.by_diameters->is == Approx(0.25).epsilon(1e-12));
}

TEST_CASE("a rotor round its stator: the same offset, and the wide side lies opposite") {
    job::Job job = alternator(0.05, 0.01);
    job.parts[2].rings[0].bore = given(20.0);
    job.parts[2].rings[0].outside = given(49.5);
    job.parts[3].rings[0].bore = given(50.0);
    job.parts[3].rings[0].outside = given(60.0);
    const FeelersFound found = feelers_of(job);
    // Wide at 10, so a stator within lies towards 4 and goes back towards 10.
    CHECK(found.offset->towards_deg == Approx(120.0).epsilon(1e-12));
    CHECK(found.even_up->towards_deg == Approx(300.0).epsilon(1e-12));
}

TEST_CASE("what all else stands on is not asked to move") {
    job::Job job = alternator(0.05, 0.01);
    job.parts[0].rings = job.parts[2].rings;
    job.parts[0].rings[0].outboard = {.face = 0, .beyond = 20.0};
    job.feelers[0].still = {0, 0};
    const FeelersFound found = feelers_of(job);
    CHECK(found.offset->seen);
    CHECK_FALSE(found.even_up);
}

TEST_CASE("limits that no setting can give, that any gives, and that the feeler cannot tell") {
    job::Job bent = alternator(0.05, 0.13);
    ask(bent, 0.25, 0.30);
    const FeelersFound found = feelers_of(bent);
    CHECK(found.eccentricity->is == Approx(0.13).epsilon(1e-9));
    CHECK(found.best_least->is == Approx(0.12).epsilon(1e-9));
    CHECK(found.limits.at(0).can_reach == SettingReach::cannot);
    CHECK(found.limits.at(0).can_keep == SettingReach::cannot);

    job::Job sound = alternator(0.05, 0.01);
    ask(sound, 0.20, 0.30);
    CHECK(feelers_of(sound).limits.at(0).can_reach == SettingReach::can);
    CHECK(feelers_of(sound).limits.at(0).can_keep == SettingReach::can);

    job::Job close = alternator(0.05, 0.01);
    ask(close, 0.241, 0.259);
    CHECK(feelers_of(close).limits.at(0).can_reach == SettingReach::cannot_tell);
    CHECK(feelers_of(close).limits.at(0).can_keep == SettingReach::cannot_tell);
}

TEST_CASE("with the rotor never turned, a limit may be out of reach but never known to be met") {
    job::Job job = alternator(0.05, 0.01, {0.0});
    ask(job, 0.20, 0.20);
    const FeelersFound found = feelers_of(job);
    CHECK(found.offset_mixed);
    CHECK(found.limits.at(0).can_reach == SettingReach::cannot_tell);
    CHECK(found.limits.at(0).can_keep == SettingReach::cannot);
}

TEST_CASE("a gap that is out of step is named, and the figures are from the others") {
    job::Job job = alternator(0.05, 0.01, {0.0, 90.0, 180.0});
    job::FeelerGap& wrong = job.feelers[0].rounds[1].gaps[2];
    wrong.least += 0.1;
    wrong.most += 0.1;
    const SurveyAnswer answer = std::get<SurveyAnswer>(survey(job));
    CHECK_FALSE(all_agree(answer));
    const FeelersFound& found = answer.feelers.at(0);
    REQUIRE(found.judgement == Judgement::suspect);
    for (std::size_t i = 0; i < 12; ++i)
        CHECK(found.readings[i].suspect == (i == 6));
    CHECK(found.readings[6].left_out);
    CHECK(found.readings[6].off_by == Approx(0.1).epsilon(1e-9));
    CHECK(found.readings[6].standardised > 5.0);
    CHECK(found.offset->amount.is == Approx(0.05).epsilon(1e-9));
    CHECK(std::abs(found.readings[0].standardised) < 1e-6);
}

TEST_CASE("what alone would explain a disagreement is told apart only as far as it can be") {
    // With the rotor at two opposite places, a gap too wide looks like the opposite one too wide.
    job::Job job = alternator(0.05, 0.01);
    job.feelers[0].rounds[1].gaps[2].least += 0.1;
    job.feelers[0].rounds[1].gaps[2].most += 0.1;
    const FeelersFound two = feelers_of(job);
    CHECK(two.judgement == Judgement::cannot_tell);
    CHECK_FALSE(two.even_up);
    for (std::size_t i = 0; i < 8; ++i)
        CHECK(two.readings[i].suspect == (i == 4 || i == 6));
    // With four readings and three unknowns, any of them explains it.
    job.feelers[0].rounds.erase(job.feelers[0].rounds.begin());
    const FeelersFound few = feelers_of(job);
    CHECK(few.judgement == Judgement::cannot_tell);
    for (const FeelerReadingFound& each : few.readings)
        CHECK(each.suspect);
}

TEST_CASE("two gaps out of step: no single one explains it") {
    job::Job job = alternator(0.05, 0.01);
    for (const std::size_t round : {0U, 1U}) {
        job::FeelerGap& wrong = job.feelers[0].rounds[round].gaps[2 * round];
        wrong.least += 0.2;
        wrong.most += 0.2;
    }
    const FeelersFound found = feelers_of(job);
    CHECK(found.judgement == Judgement::contradict);
    for (const FeelerReadingFound& each : found.readings)
        CHECK_FALSE(each.suspect);
}

TEST_CASE("a leaf that goes and one that does not: their middle, and less sure") {
    job::Job job = alternator(0.05, 0.01);
    job::FeelerGap& gap = job.feelers[0].rounds[0].gaps[0];
    gap.least -= 0.025;
    gap.most += 0.025;
    const FeelersFound found = feelers_of(job);
    CHECK(found.readings[0].is == Approx(feeler_gap(0, 0, 0.05, 300, 0.01)).epsilon(1e-12));
    // Uniform over +-0.01 and over 0.05 (JCGM 100:2008, 4.3.7).
    CHECK(found.readings[0].sd == Approx(std::sqrt(1e-4 / 3.0 + 25e-4 / 12.0)).epsilon(1e-12));
    CHECK(found.readings[1].sd == Approx(0.01 / std::sqrt(3.0)).epsilon(1e-12));
}

TEST_CASE("heights are those of the faces, and a gap that opens outboard is a taper") {
    job::Job job = alternator(0.05, 0.01);
    job::Feelers& set = job.feelers[0];
    const std::vector<job::FeelerRound> once = set.rounds;
    for (const job::FeelerRound& round : once) {
        job::FeelerRound low = round;
        low.height = {2, 1};
        low.below = 15.0;
        for (job::FeelerGap& gap : low.gaps) {
            gap.least -= 0.06;
            gap.most -= 0.06;
        }
        set.rounds.push_back(low);
    }
    for (std::size_t i = 0; i < once.size(); ++i)
        set.rounds[i].height = {3, 1};  // rotor.out lies 2 outboard of stator.out
    const FeelersFound found = feelers_of(job);
    CHECK(found.span == Approx(17.0).epsilon(1e-12));
    CHECK(found.readings.back().height == "stator.out -15");
    REQUIRE(found.taper);
    CHECK(found.taper->is == Approx(0.06).epsilon(1e-12));
    CHECK(found.not_told.empty());
    CHECK(found.still_leans->amount.is < 1e-12);
    CHECK_FALSE(found.still_leans->seen);
}

TEST_CASE("feelers are about the parts as they came, whatever was cut since") {
    const job::Job before = alternator(0.05, 0.01);
    job::Job after = before;
    after.parts[2].rings[0].bore = given(51.0);
    after.record.push_back({.date = "2026-11-25"});
    after.in_force = 1;
    after.before = std::make_shared<const job::Job>(before);
    CHECK(feelers_of(after).by_diameters->is == Approx(0.25).epsilon(1e-12));
}
