// SPDX-License-Identifier: MIT
#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <numbers>
#include <unit/spin/spin_job.hpp>
#include <variant>

using namespace trialfit;
using doctest::Approx;
using spin::Estimate;
using spin::Verdict;
using testing::changed;
using testing::kDiscJob;
using testing::spun;

namespace {

// By hand: 7850 kg/m3 on pi (50^2 - 10^2) 20 mm3, and m (50^2 + 10^2)/2.
constexpr double kDisc_kg = 7850e-9 * std::numbers::pi * 2400.0 * 20.0;
constexpr double kDisc_kg_m2 = kDisc_kg * 1300e-6;

bool lacks(const spin::SpinAnswer& answer, spin::Lacking what) {
    return std::any_of(answer.not_judged.begin(), answer.not_judged.end(),
                       [what](const auto& each) {
                           const auto* const lacking = std::get_if<spin::Lacking>(&each);
                           return lacking != nullptr && *lacking == what;
                       });
}

bool noted(const spin::SpinAnswer& answer, spin::Remark what) {
    return std::any_of(answer.notes.begin(), answer.notes.end(), [what](const auto& each) {
        const auto* const remark = std::get_if<spin::Remark>(&each);
        return remark != nullptr && *remark == what;
    });
}

}  // namespace

TEST_CASE("a disc and the crank's own inertia are all that turns; the shaft counts once") {
    const auto answer = spun(kDiscJob);
    REQUIRE(answer.inertia.parts.size() == 1);
    const spin::PartInertia& disc = answer.inertia.parts.front();
    CHECK(disc.part == "disc");
    CHECK(disc.mass_kg.middle == Approx(kDisc_kg).epsilon(1e-12));
    CHECK(disc.inertia_kg_m2.middle == Approx(kDisc_kg_m2).epsilon(1e-9));
    CHECK(disc.inertia_kg_m2.least == disc.inertia_kg_m2.greatest);
    CHECK(answer.inertia.known_kg_m2.middle == Approx(20e-4 + kDisc_kg_m2).epsilon(1e-9));
    CHECK(answer.inertia.whole);
    const auto* const shaft = std::get_if<spin::ShaftIsCrank>(&answer.notes.front());
    REQUIRE(shaft != nullptr);
    CHECK(shaft->parts == std::vector<std::string>{"crank"});
}

TEST_CASE("the balance by hand") {
    const auto answer = spun(kDiscJob);
    const double inertia = 20e-4 + kDisc_kg_m2;
    const double w0 = 900.0 * std::numbers::pi / 30.0;
    CHECK(answer.started->energy_j->middle == Approx(inertia * w0 * w0 / 2.0).epsilon(1e-9));
    // Heights of the pin with R = 22, L = 90, at 92 and at 8 degrees before the top.
    const auto drop = [](double degrees) {
        const double q = degrees * std::numbers::pi / 180.0;
        return 112.0 - 22.0 * std::cos(q) -
               std::sqrt(90.0 * 90.0 - std::pow(22.0 * std::sin(q), 2));
    };
    const double area = std::numbers::pi / 4.0 * 45.0 * 45.0;
    const double left = drop(92.0) / 5.4;
    const double from = area * (left + drop(92.0)) * 1e-9;
    const double to = area * (left + drop(8.0)) * 1e-9;
    CHECK(answer.compression->trapped_cm3.middle == Approx(from * 1e6).epsilon(1e-12));
    const double gas = 1e5 * from * (std::pow(from / to, 0.3) - 1.0) / 0.3;
    const double net = gas - 0.8e5 * (from - to);
    CHECK(answer.compression->to_firing->gas_j.middle == Approx(gas).epsilon(1e-12));
    CHECK(answer.compression->to_firing->work_j.middle == Approx(net).epsilon(1e-12));
    const double loss = net + 0.5 * 84.0 * std::numbers::pi / 180.0;
    CHECK(answer.compression->to_firing->loss_j->middle == Approx(loss).epsilon(1e-12));
    const double w = std::sqrt(w0 * w0 - 2.0 * loss / inertia);
    CHECK(answer.spark->has.middle == Approx(w * 30.0 / std::numbers::pi).epsilon(1e-9));
    CHECK(answer.spark->has.least == Approx(answer.spark->has.greatest).epsilon(1e-12));
    CHECK(answer.verdict == Verdict::holds);
    const double top = answer.compression->to_top.work_j.middle;
    const double idle = 1200.0 * std::numbers::pi / 30.0;
    CHECK(answer.unevenness->middle == Approx(top / (inertia * idle * idle)).epsilon(1e-9));
    CHECK(answer.running.front().rim_m_s->middle == Approx(idle * 0.05).epsilon(1e-12));
    CHECK(answer.running.front().stored_j->middle == Approx(inertia * idle * idle / 2.0));
}

TEST_CASE("metal that two rings share counts once") {
    const auto twice = spun(
        changed(kDiscJob, {{"rings: {body: {from: in, to: out, bore: 20 exact, od: 100 exact}}",
                            "rings: {body: {from: in, to: out, bore: 20 exact, od: 100 exact}, "
                            "inner: {from: in, to: out, bore: 20 exact, od: 60 exact}}"}}));
    CHECK(twice.inertia.parts.front().inertia_kg_m2.middle == Approx(kDisc_kg_m2).epsilon(1e-9));
    CHECK(twice.inertia.parts.front().inertia_kg_m2.greatest == Approx(kDisc_kg_m2).epsilon(1e-9));
}

TEST_CASE("of an energy a heavier rotor sparks slower and is carried over alike") {
    const auto energy = changed(kDiscJob, {{"speed: 900 rpm", "energy: 14 J"}});
    const auto heavier = changed(energy, {{"20 kg cm2", "26 kg cm2"}});
    const auto one = spun(energy);
    const auto other = spun(heavier);
    CHECK(other.spark->has.middle < one.spark->has.middle);
    CHECK(other.carried->has.middle == one.carried->has.middle);
    CHECK(other.carried->needs.middle == one.carried->needs.middle);
    CHECK(one.needed->inertia.at_most);
}

TEST_CASE("of a speed a heavier rotor keeps more, and takes more energy") {
    const auto one = spun(kDiscJob);
    const auto other = spun(changed(kDiscJob, {{"20 kg cm2", "26 kg cm2"}}));
    CHECK(other.spark->has.middle > one.spark->has.middle);
    CHECK(other.carried->has.middle > one.carried->has.middle);
    CHECK_FALSE(one.needed->inertia.at_most);
}

TEST_CASE("what just does, put in, just does") {
    const auto in_kg_cm2 = [](double inertia) { return std::to_string(inertia * 1e4) + " kg cm2"; };
    for (const std::string starter :
         {"speed: 900 rpm", "energy: 14 J", "torque: 3 N m, turns: 1"}) {
        CAPTURE(starter);
        const std::string text = changed(kDiscJob, {{"speed: 900 rpm", starter}});
        const auto answer = spun(text);
        const double just = *answer.needed->inertia.middle_kg_m2 - kDisc_kg_m2;
        const auto then = spun(changed(text, {{"20 kg cm2", in_kg_cm2(just)}}));
        const bool sparks = then.spark->has.middle == Approx(450.0).epsilon(1e-4);
        const bool tops =
            then.carried->has.middle == Approx(then.carried->needs.middle).epsilon(1e-4);
        CHECK((sparks || tops));
        CHECK(then.needed->energy_j.middle == Approx(then.started->energy_j->middle).epsilon(1e-4));
    }
}

TEST_CASE("where the spark asks for little, getting over the top is what takes the energy") {
    const auto answer = spun(changed(kDiscJob, {{"spark_from: 450 rpm", "spark_from: 1 rpm"}}));
    CHECK(answer.needed->energy_j.middle == answer.compression->to_top.loss_j->middle);
    CHECK(answer.needed->energy_j.middle > answer.compression->to_firing->loss_j->middle + 0.1);
}

TEST_CASE("a check of magnets over poles that fails is no start that holds") {
    // The disc lies from 5 to 25, the poles from 0 to 10: half of them are covered.
    const auto covered = [](const std::string& asked) {
        return spun(
            changed(kDiscJob, {{"timing:",
                                "  - part: poles\n"
                                "    sits: {face: in, against: case.floor}\n"
                                "    faces: {in: zero, out: 10 exact from in}\n"
                                "    rings: {ring: {from: in, to: out, bore: 110, od: 120}}\n"
                                "checks: [{check: over, overlap: {of: poles.ring, by: disc.body}, "
                                "at_least: " +
                                    asked + " %}]\ntiming:"}}));
    };
    const auto fails = covered("90");
    CHECK(fails.spark->verdict == Verdict::holds);
    REQUIRE(fails.over_poles.size() == 1);
    CHECK(fails.over_poles.front().verdict == Verdict::fails);
    CHECK(fails.verdict == Verdict::fails);
    CHECK(covered("40").verdict == Verdict::holds);
}

TEST_CASE("a torque is counted from rest, less the drag, and one that is less than it gives none") {
    const auto torque = [](const std::string& words) {
        return spun(changed(kDiscJob, {{"speed: 900 rpm", words}}));
    };
    CHECK(torque("torque: 3 N m, turns: 1.5").started->energy_j->middle ==
          Approx(2.0 * std::numbers::pi * 1.5 * 2.5).epsilon(1e-12));
    const auto weak = torque("torque: 0.4 N m, turns: 1.5");
    CHECK(weak.started->energy_j->greatest == 0.0);
    CHECK(weak.carried->verdict == Verdict::fails);
    CHECK(weak.spark->has.greatest == 0.0);
    CHECK(*weak.needed->inertia.middle_kg_m2 == 0.0);
}

TEST_CASE("a spark beyond what the starter turns is met by no inertia") {
    const auto answer = spun(changed(kDiscJob, {{"spark_from: 450 rpm", "spark_from: 900 rpm"}}));
    CHECK_FALSE(answer.needed->inertia.middle_kg_m2);
    CHECK(answer.spark->verdict == Verdict::fails);
}

TEST_CASE("a doubtful start is one that the middle makes and the worst case does not") {
    const auto answer = spun(changed(kDiscJob, {{"speed: 900 rpm", "speed: 780..1000 rpm"}}));
    CHECK(answer.spark->verdict == Verdict::doubtful);
    CHECK(answer.verdict == Verdict::doubtful);
    CHECK(answer.needed->inertia.least_kg_m2 < answer.needed->inertia.greatest_kg_m2);
}

TEST_CASE("what is not given is not judged, and never read as what would hold") {
    using spin::Lacking;
    const std::vector<std::pair<std::string, Lacking>> lines{
        {"  crank_inertia: 20 kg cm2\n", Lacking::crank_inertia},
        {"  drag: 0.5 N m\n", Lacking::drag},
        {"  starter: {speed: 900 rpm}\n", Lacking::starter},
        {"  bore: 45 exact\n", Lacking::bore},
        {"  compression: 6.4\n", Lacking::compression},
        {"timing: {stroke: 44 exact, rod: 90 exact, fire_at: 8 deg}\n", Lacking::stroke_and_rod},
        {", fire_at: 8 deg", Lacking::fire_at},
        {"  spark_from: 450 rpm\n", Lacking::spark_from}};
    CHECK(spun(kDiscJob).not_judged.empty());
    for (const auto& [line, what] : lines) {
        const std::string left_out = line;
        CAPTURE(left_out);
        const auto answer = spun(changed(kDiscJob, {{line, ""}}));
        CHECK(lacks(answer, what));
        CHECK(answer.not_judged.size() == 1);
        CHECK(answer.verdict == Verdict::not_judged);
    }
}

TEST_CASE("a part of unknown weight is named, and the inertia is not whole") {
    using Lacks = stack::NotCounted::Lacks;
    const auto not_counted = [](const std::string& from, const std::string& to) {
        const auto answer = spun(changed(kDiscJob, {{from, to}}));
        CHECK_FALSE(answer.inertia.whole);
        CHECK_FALSE(answer.spark);
        CHECK(answer.verdict == Verdict::not_judged);
        return std::get<stack::NotCounted>(answer.not_judged.front());
    };
    CHECK(not_counted("    material: steel\n", "") ==
          stack::NotCounted{.part = "disc", .lacks = Lacks::density});
    CHECK(not_counted("    rings: {body: {from: in, to: out, bore: 20 exact, od: 100 exact}}\n",
                      "") == stack::NotCounted{.part = "disc", .lacks = Lacks::rings});
    CHECK(not_counted("od: 100 exact", "od: unmeasured") ==
          stack::NotCounted{.part = "disc", .lacks = Lacks::lengths});
}

TEST_CASE("what is taken for want of a figure is said") {
    const auto answer = spun(changed(kDiscJob, {{"  exponent: 1.3\n", ""},
                                                {"  closes_at: 92 deg\n", ""},
                                                {"  air_pressure: 100 kPa\n", ""},
                                                {"  under_piston: 0.8\n", ""}}));
    for (const auto what : {spin::Remark::closes_at_bottom, spin::Remark::usual_exponent,
                            spin::Remark::usual_air, spin::Remark::nothing_under_piston}) {
        CHECK(noted(answer, what));
        CHECK_FALSE(noted(spun(kDiscJob), what));
    }
    // From the bottom the piston has the whole stroke to go, and that takes most.
    CHECK(answer.compression->closes_deg.middle == Approx(180.0));
    const auto mid = spun(changed(kDiscJob, {{"  closes_at: 92 deg\n", ""}}));
    CHECK(mid.compression->to_top.work_j.middle > spun(kDiscJob).compression->to_top.work_j.middle);
    // So does air that gives nothing back.
    const auto none = spun(changed(kDiscJob, {{"  under_piston: 0.8\n", ""}}));
    for (const char* share : {"0", "0.3", "1"}) {
        const auto given =
            spun(changed(kDiscJob, {{"under_piston: 0.8", std::string("under_piston: ") + share}}));
        CHECK(none.compression->to_top.work_j.greatest >=
              given.compression->to_top.work_j.greatest);
    }
}

TEST_CASE("a job without the section, and one that fires before it closes, say so") {
    const auto fault = [](const std::string& text) {
        const job::Job job = testing::job_of(text);
        const auto outcome = spin::spin(job, {});
        return std::get<job::Complaints>(outcome).front().fault;
    };
    CHECK(fault(kDiscJob.substr(0, kDiscJob.find("spin:"))) == "the job has no 'spin' section");
    CHECK(fault(changed(kDiscJob, {{"92 deg", "8 deg"}})) ==
          "it fires before the cylinder has closed, so that nothing is compressed");
}
