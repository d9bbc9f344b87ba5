// SPDX-License-Identifier: MIT
// What keeps a hub from its cone, and what does not.
#include <doctest/doctest.h>

#include <support/givens.hpp>
#include <unit/seat/tight_job.hpp>
#include <utility>

using namespace trialfit;
using namespace trialfit::testing;
using stack::Verdict;

namespace {

// Closes over the nut, whose top lies 33 out, and ends `inside` out.
job::Part cover_over_nut(double inside) {
    PartOf cover("cover", "inside");
    cover.face("out", given(3.0), "inside").ring("roof", "inside", "out", 0.0, 60.0);
    job::Part closing = cover;
    job::Seat at_offset{.kind = job::SeatKind::face_at_offset, .own = 0, .against = {0, 0}};
    at_offset.offset = given(inside);
    closing.seats = {at_offset};
    return closing;
}

}  // namespace

TEST_CASE("a cover that lands on the nut does not hold the hub off, nor hide what does") {
    auto job = job_of({});
    job.parts.push_back(cover_over_nut(30.0));
    CHECK(answer_of(job).seated.verdict == Verdict::holds);
    CHECK(answer_of(job).verdict == Verdict::holds);

    put_plate_in_the_way(job);
    const auto answer = answer_of(job);
    CHECK(answer.seated.verdict == Verdict::fails);
    REQUIRE(answer.seated.why);
    CHECK(answer.seated.why->outboard == "rotor.boss_in");
    CHECK(answer.seated.why->inboard == "plate.front");
    CHECK(answer.seated.why->by == doctest::Approx(2.0));
    CHECK(answer.seated.why->held == seat::Unseated::hub);
}

TEST_CASE("a nut with a skirt: on the shaft it clamps the shaft, on the hub it still draws it up") {
    // The skirt reaches 6 mm inboard of the nut's seat.
    const auto with_skirt = [](double bore, double od) {
        PartOf turned("nut", "seat");
        turned.turns()
            .face("top", given(8.0), "seat")
            .face("skirt", given(-6.0), "seat")
            .ring("hex", "seat", "top", 10.0, 14.0)
            .ring("skirt", "skirt", "top", bore, od)
            .seat(on_face(0, {.part = 1, .face = 1}));
        return turned;
    };
    // A collar of the shaft that ends 21 out, 2 mm too far.
    auto on_shaft = job_of({});
    PartOf stop("collar", "in");
    stop.turns().face("out", given(1.0), "in").ring("stop", "in", "out", 31.0, 40.0);
    stop.seat(on_face(0, {.part = 0, .face = 1}));
    on_shaft.parts.insert(on_shaft.parts.begin() + 1, stop);
    on_shaft.parts[2].seats[0].on_cone.part = 0;
    job::Part nut = with_skirt(31.0, 40.0);
    nut.material = "test steel";
    nut.threads = on_shaft.parts[3].threads;
    nut.seats[0].against.part = 2;
    on_shaft.parts[3] = nut;
    const auto shaft = answer_of(on_shaft);
    CHECK(shaft.seated.verdict == Verdict::fails);
    REQUIRE(shaft.seated.why);
    CHECK(shaft.seated.why->by == doctest::Approx(2.0));
    CHECK(shaft.seated.why->held == seat::Unseated::carried);

    // The same skirt over a flange of the hub that ends 1 mm too far out.
    auto on_hub = job_of({});
    PartOf rotor("rotor", "boss_in");
    rotor.turns()
        .face("nut_seat", given(25.0), "boss_in")
        .face("flange", given(20.0), "boss_in")
        .ring("boss", "boss_in", "nut_seat", 10.0, 30.0)
        .ring("flange", "boss_in", "flange", 30.0, 40.0)
        .cone("bore", "boss_in", given(16.6), 0.2, 16.0)
        .seat(on_cone(0, {.part = 0, .index = 0}));
    job::Part hub = rotor;
    hub.material = "test hub";
    on_hub.parts[1] = hub;
    nut.seats[0].against.part = 1;
    on_hub.parts[2] = nut;
    const auto answer = answer_of(on_hub);
    CHECK(answer.seated.verdict == Verdict::fails);
    REQUIRE(answer.seated.why);
    CHECK(answer.seated.why->by == doctest::Approx(1.0));
    CHECK(answer.seated.why->part == "nut");
    CHECK(answer.seated.why->held == seat::Unseated::on_hub);
}
