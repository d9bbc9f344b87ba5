// SPDX-License-Identifier: MIT
#include "everything.hpp"

#include "support.hpp"

using namespace trialfit;
using doctest::Approx;

TEST_CASE("the head of a job that uses every construct") {
    const job::Job job = test::read(test::kEverything);
    CHECK(job.title == "Everything: once");
    CHECK(job.general_tolerance == 'm');
    CHECK(job.shim_cost == 0.2);
    CHECK(job.gauges.at(1).half_width == 0.005);
    REQUIRE(job.materials.size() == 1);
    CHECK(job.materials[0].name == "bell bronze");
    CHECK(job.materials[0].expansion_per_k == 18e-6);
    CHECK(job.materials[0].density_kg_m3 == 8800);
    CHECK(job.materials[0].modulus_mpa == 100000);
    CHECK(job.materials[0].poisson == 0.34);
    CHECK(job.materials[0].strength_mpa == 180);
    CHECK(job.parts.at(0).material == "bell bronze");
    REQUIRE(job.states.size() == 2);
    CHECK(job.states[0].name == "fit");
    CHECK(job.states[0].all_c == 20);
    CHECK(job.states[1].all_c == 90);
    CHECK(job.states[1].part_c == std::map<job::PartId, double>{{3, 70.0}});
}

TEST_CASE("faces dimensioned twice, shims of all kinds, two seats, key and lap") {
    const job::Job job = test::read(test::kEverything);
    const job::Part& stator = job.parts.at(2);
    REQUIRE(stator.faces.at(1).dimensions.size() == 2);
    const job::Given& again = stator.faces[1].dimensions[1].distance;
    CHECK(again.written == "[13.98, 14.02] by caliper");
    CHECK(again.size.nominal == Approx(14.0).epsilon(1e-14));
    CHECK(again.size.spread.scatter_sd == Approx(0.02).epsilon(1e-12));  // s = 0.02 sqrt 2, n = 2
    REQUIRE(stator.seats.at(0).shims);
    const job::Shims& shims = *stator.seats[0].shims;
    CHECK(shims.at_most == 4);
    REQUIRE(shims.stock.size() == 3);
    CHECK(!shims.stock[0].pieces);
    CHECK(shims.stock[0].thickness.size.half_width() == Approx(0.01).epsilon(1e-12));
    CHECK(shims.stock[1].pieces == 2);
    CHECK(shims.stock[1].thickness.size.nominal == 0.5);
    CHECK(shims.stock[2].thickness.size.half_width() == Approx(0.02).epsilon(1e-12));
    CHECK(shims.fitted.at(0).size.half_width() == Approx(0.01).epsilon(1e-12));
    CHECK(stator.cuts.at(0).cost_per_mm == 0.3);
    CHECK(stator.cuts.at(0).holds == 0.05);

    const job::Part& hub = job.parts.at(3);
    REQUIRE(hub.seats.size() == 2);
    REQUIRE(hub.seats[0].key);
    CHECK(hub.seats[0].key->height.size.nominal == 3.05);
    CHECK(hub.seats[0].key->room.size.lower == Approx(2.98).epsilon(1e-14));
    CHECK(!hub.seats[0].key->floors_follow_cone);
    CHECK(hub.seats[1].kind == job::SeatKind::face_at_offset);
    // ISO 2768-1:1989, class m, over 3 to 6 mm: +-0.1 (from memory).
    CHECK(hub.seats[1].offset->size.half_width() == Approx(0.1).epsilon(1e-12));
    CHECK(hub.laps.at(0).at_most_on_diameter == 0.05);
    CHECK(hub.laps.at(0).cost == 3);
    CHECK(hub.laps.at(0).note == "both parts");
    CHECK(hub.threads.at(0).from == 0);  // `from` may lie outboard of `to`
    CHECK(hub.threads.at(0).to == 1);
    CHECK(hub.cones.at(0).taper == Approx(0.2).epsilon(1e-15));
    CHECK(job.parts.at(1).threads.at(0).run_out.size.upper == Approx(0.6).epsilon(1e-14));
}

TEST_CASE("limits in every count, and a jammed reading") {
    const job::Job job = test::read(test::kEverything);
    CHECK(job.checks.at(0).at_least->value == -20);
    CHECK(job.checks.at(0).at_most->value == 30);
    CHECK(job.checks.at(0).aim->value == 1);
    CHECK(job.checks.at(3).at_least->in == job::LimitIn::pitches);
    CHECK(job.checks.at(3).at_least->value == 5);
    CHECK(job.checks.at(3).at_most->in == job::LimitIn::length);
    CHECK(job.checks.at(4).at_least->in == job::LimitIn::strength);
    const job::Reading& reading = job.readings.at(0);
    CHECK(reading.fitted ==
          std::vector<job::PartId>{0, 1, 3});  // rising, whatever the order written
    REQUIRE(reading.touching);
    CHECK(job::name(job, reading.touching->inboard) == "case.floor");
    CHECK(job::name(job, reading.touching->outboard) == "hub.back");
}

TEST_CASE("tightening and the record") {
    const job::Job job = test::read(test::kEverything);
    REQUIRE(job.seat);
    CHECK(job.seat->nut_torque_nm->least == 30);
    CHECK(job.seat->nut_torque_nm->greatest == 40);
    CHECK(job.seat->thread_friction->greatest == 0.16);
    CHECK(job.seat->under_nut_friction->least == 0.12);
    CHECK(job.seat->under_nut_friction->greatest == 0.12);
    CHECK(job.seat->engine_torque_nm->least == 5);
    CHECK(job.seat->crank_acceleration_rad_s2->least == 2000);
    CHECK(job.seat->speed_rpm->greatest == 9000);
    REQUIRE(job.record.size() == 1);
    CHECK(job.record[0].date == "2026-11-25");
    CHECK(job.record[0].who == "A. N. Other");
    CHECK(job.record[0].note == "first");
    CHECK(job.record[0].as_cut.at(0).face == job::FaceRef{.part = 2, .face = 0});
    CHECK(job.record[0].as_cut.at(0).size.size.nominal == 9.9);
    CHECK(job.record[0].fitted.at(0).part == 2);
    CHECK(job.record[0].fitted.at(0).shims.at(1).size.nominal == 0.3);
}

TEST_CASE("long forms of a size") {
    const auto size = [](const char* form) {
        const job::Job job = test::read(
            std::string("trialfit: 1\ngauges: {caliper: 0.03}\nparts:\n  - part: a\n    faces:\n"
                        "      back: zero\n      front: ") +
            form + "\n");
        return job.parts.at(0).faces.at(1).dimensions.at(0).distance;
    };
    const job::Given uniform =
        size("{size: 12.5, plus: 0.1, minus: 0.02, shape: uniform, from: back}");
    CHECK(uniform.written == "12.5 +0.1 -0.02, uniform");
    CHECK(uniform.size.lower == Approx(12.48).epsilon(1e-14));
    CHECK(uniform.size.upper == Approx(12.6).epsilon(1e-14));
    CHECK(uniform.size.spread.shape == quantity::Shape::uniform);
    const job::Given cut =
        size("{size: 12.5 ±0.1, shape: truncated normal, sigmas: 2, from: back}");
    CHECK(cut.size.spread.shape == quantity::Shape::truncated_normal);
    CHECK(cut.size.spread.sigmas == 2);
    CHECK(size("{size: 12.5 ±0.1, sigmas: 2, from: back}").size.sd() ==
          Approx(0.05).epsilon(1e-12));
    CHECK(size("{size: 25 h7, shape: triangular, from: back}").size.spread.shape ==
          quantity::Shape::triangular);
    const job::Given limits = size("{lower: 12.4, upper: 0.5 in, from: back}");
    CHECK(limits.written == "12.4..0.5 in");
    CHECK(limits.size.lower == 12.4);
    CHECK(limits.size.upper == Approx(12.7).epsilon(1e-14));
    CHECK(limits.size.nominal == limits.size.middle());
    CHECK(limits.size.spread.shape == quantity::Shape::normal);
    const job::Given once = size("{size: 12.5, by: caliper, from: back}");
    CHECK(once.written == "12.5 by caliper");
    CHECK(once.gauge == 0);
    CHECK(once.size.half_width() == Approx(0.03).epsilon(1e-12));
}
