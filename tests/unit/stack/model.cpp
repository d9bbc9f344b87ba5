// SPDX-License-Identifier: MIT
#include <doctest/doctest.h>

#include <support/jobs.hpp>
#include <trialfit/stack/bounds.hpp>
#include <trialfit/stack/check/check.hpp>
#include <trialfit/stack/clearance/clearances.hpp>
#include <trialfit/stack/model/model.hpp>

#include "support/messages.hpp"

namespace job = trialfit::job;
namespace quantity = trialfit::quantity;
using namespace trialfit::stack;
using namespace trialfit::testing;

namespace {

Model model_of(const job::Job& job) {
    return std::get<Model>(Model::of(job));
}

Bounds gap(const Model& model, job::FaceRef inboard, job::FaceRef outboard) {
    return bounds(model, model.gap({.face = inboard}, {.face = outboard}), 1.0);
}

// A plate on a floor: thickness t1 direct, and again in two steps.
job::Job twice(double direct, double first, double second, double half_width) {
    job::Job job;
    job.parts.push_back(PartOf("floor", "top"));
    PartOf plate("plate", "back");
    plate.face("step", given(first, half_width), "back");
    plate.face("front", given(direct, half_width), "back");
    plate.face("front", given(second, half_width), "step");
    plate.seat(on_face(0, {0, 0}));
    job.parts.push_back(plate);
    return job;
}

}  // namespace

TEST_CASE("a pile of washers: sums of sizes, of half-widths, and of their squares") {
    const job::Job job = pile(9);
    const Bounds all = gap(model_of(job), {.part = 0, .face = 0}, {.part = 9, .face = 1});
    CHECK(all.nominal == doctest::Approx(9.0));
    CHECK(all.worst.lo == doctest::Approx(9.0 - 0.09));
    CHECK(all.worst.hi == doctest::Approx(9.0 + 0.09));
    CHECK(all.rss.hi == doctest::Approx(9.0 + 0.03));
}

TEST_CASE("sizes shared by both ends cancel") {
    const job::Job job = pile(9);
    const Model model = model_of(job);
    const Form form = model.gap({.face = {.part = 4, .face = 1}}, {.face = {.part = 6, .face = 1}});
    CHECK(form.sensitivities.nonZeros() == 2);
    CHECK(gap(model, {.part = 6, .face = 1}, {.part = 4, .face = 1}).nominal ==
          doctest::Approx(-2.0));
}

TEST_CASE("a part dimensioned twice is adjusted by least squares") {
    // Direct 10.0 and 6.0 + 4.03, equal spreads: the 0.03 is shared out in thirds, so 10.01.
    const job::Job job = twice(10.0, 6.0, 4.03, 0.03);
    const Model model = model_of(job);
    const Bounds front = gap(model, {.part = 1, .face = 0}, {.part = 1, .face = 2});
    CHECK(front.nominal == doctest::Approx(10.01).epsilon(1e-13));
    // Weights 2/3 on the direct size and 1/3 on each step: sqrt(4/9 + 1/9 + 1/9) = sqrt(2/3).
    CHECK(front.middle - front.rss.lo ==
          doctest::Approx(0.03 * std::sqrt(2.0 / 3.0)).epsilon(1e-13));
    // Worst case: the direct size must lie in 9.97..10.03 and the steps' sum in 9.97..10.09; there
    // the RSS ends too.
    CHECK(front.rss.hi == front.worst.hi);
    CHECK(front.worst.lo == doctest::Approx(9.97).epsilon(1e-13));
    CHECK(front.worst.hi == doctest::Approx(10.03).epsilon(1e-13));
}

TEST_CASE("sizes that cannot all be right are refused, with what they differ by") {
    const job::Job job = twice(10.0, 6.0, 4.2, 0.03);
    const auto built = model_for(job, {});
    const auto& complaints = std::get<job::Complaints>(built);
    REQUIRE(complaints.size() == 1);
    CHECK(complaints[0].fault ==
          "the sizes contradict each other: plate.front from plate.step differs by 0.2 mm from "
          "what the others give, "
          "and all their limits together allow 0.09 mm");
    CHECK(complaints[0].remedy == job::Remedy::weigh_sizes);
}

TEST_CASE("a face tied to nothing is named") {
    job::Job job = twice(10.0, 6.0, 4.0, 0.03);
    job.parts[1].faces.push_back({.name = "lost"});
    const auto built = Model::of(job);
    const auto& complaints = std::get<job::Complaints>(built);
    REQUIRE(complaints.size() == 1);
    CHECK(complaints[0].fault == "nothing says where face 'plate.lost' lies");
}

TEST_CASE("play lies half of the largest each way about the stated position") {
    job::Job job;
    job.parts.push_back(PartOf("case", "floor"));
    PartOf crank("crank", "shoulder");
    job::Seat seat = on_face(0, {0, 0});
    seat.kind = job::SeatKind::face_at_offset;
    seat.offset = given(6.0, 0.02);
    seat.play = job::Given{.size = {.nominal = 0.1, .lower = 0.05, .upper = 0.15}};
    crank.seat(seat);
    job.parts.push_back(crank);
    const Bounds shoulder = gap(model_of(job), {0, 0}, {1, 0});
    CHECK(shoulder.nominal == doctest::Approx(6.0));
    CHECK(shoulder.worst.lo == doctest::Approx(6.0 - 0.02 - 0.075));
    CHECK(shoulder.worst.hi == doctest::Approx(6.0 + 0.02 + 0.075));
}

TEST_CASE("a key too high holds the hub off by 2e/T where the floors follow the cone") {
    job::Job job;
    PartOf shaft("shaft", "big");
    shaft.cone("cone", "big", given(16.0), 0.2, 16.0);
    job.parts.push_back(shaft);
    PartOf hub("hub", "in");
    hub.cone("bore", "in", given(16.0), 0.2, 16.0);
    job::Seat seat = on_cone(0, {0, 0});
    // Case C1: any excess e over a room of 3.0 gives 10 e of stand-off at 1:5; 0.05 gives 0.5.
    seat.key = job::Key{.height = given(3.05, 0.01), .room = given(3.0)};
    hub.seat(seat);
    job.parts.push_back(hub);
    SUBCASE("following the cone") {
        const Bounds off = gap(model_of(job), {0, 0}, {1, 0});
        CHECK(off.nominal == doctest::Approx(0.5).epsilon(1e-12));
        CHECK(off.worst.hi == doctest::Approx(0.6).epsilon(1e-12));
    }
    SUBCASE("parallel to the axis: not at all, but said") {
        job.parts[1].seats[0].key->floors_follow_cone = false;
        const Model model = model_of(job);
        CHECK(gap(model, {0, 0}, {1, 0}).nominal == 0.0);
        REQUIRE(model.notes().size() == 1);
        const auto* const key = testing::message<KeyMayNotEnter>(model.notes());
        REQUIRE(key != nullptr);
        CHECK(key->most == doctest::Approx(0.06));
        CHECK(key->excess == doctest::Approx(0.05));
    }
}

TEST_CASE("a hub that its key holds off, or keeps from going on, does not fit whatever clears") {
    const auto with_key = [](double height, double half_width, bool along_cone) {
        job::Job job;
        PartOf shaft("shaft", "big");
        shaft.turns().face("shoulder", given(-5.0), "big");
        shaft.ring("shoulder", "shoulder", "big", 0.0, 30.0)
            .cone("cone", "big", given(16.0), 0.2, 16.0);
        PartOf hub("hub", "in");
        hub.turns().face("out", given(20.0), "in");
        hub.ring("boss", "in", "out", 12.0, 30.0).cone("bore", "in", given(15.0), 0.2, 16.0);
        job::Seat seat = on_cone(0, {0, 0});
        seat.key = job::Key{.height = given(height, half_width),
                            .room = given(3.0),
                            .floors_follow_cone = along_cone};
        hub.seat(seat);
        job.parts = {shaft, hub};
        return std::get<CheckAnswer>(check(job, {}));
    };
    for (const bool along_cone : {true, false}) {
        CAPTURE(along_cone);
        const CheckAnswer high = with_key(3.1, 0.01, along_cone);
        CHECK(high.clearances.front().verdict == Verdict::holds);
        CHECK(high.verdict == Verdict::fails);
        CHECK(high.verdict_apart == Verdict::fails);
        CHECK(high.warnings.size() == 1);
        CHECK(with_key(2.995, 0.01, along_cone).verdict == Verdict::doubtful);
        CHECK(with_key(3.0, 0.01, along_cone).verdict == Verdict::doubtful);
        const CheckAnswer low = with_key(2.98, 0.01, along_cone);
        CHECK(low.verdict == Verdict::holds);
        CHECK(low.warnings.empty());
    }
    CHECK(std::holds_alternative<KeyHoldsOff>(with_key(3.1, 0.01, true).warnings.front()));
    CHECK(std::holds_alternative<KeyMayHoldOff>(with_key(3.0, 0.01, true).warnings.front()));
    CHECK(std::holds_alternative<KeyMayNotEnter>(with_key(3.1, 0.01, false).warnings.front()));
}

TEST_CASE("cones of which neither reaches the other are no seat") {
    const auto with_bore = [](double dia, double taper) {
        job::Job job;
        PartOf shaft("shaft", "big");
        shaft.turns().cone("cone", "big", given(16.0, 0.01), taper, 16.0);
        PartOf hub("hub", "in");
        hub.turns().face("out", given(20.0), "in");
        hub.ring("boss", "in", "out", 9.0, 30.0).cone("bore", "in", given(dia, 0.01), taper, 10.0);
        hub.seat(on_cone(0, {0, 0}));
        job.parts = {shaft, hub};
        return std::get<CheckAnswer>(check(job, {}));
    };
    const auto miss = [](const CheckAnswer& answer) { return message<ConesMiss>(answer.warnings); };
    // The shaft goes from 16 to 12.8, the hub from its bore to 2 less.
    for (const double fits : {12.83, 14.0, 16.0, 17.9}) {
        CAPTURE(fits);
        CHECK(miss(with_bore(fits, 0.2)) == nullptr);
    }
    const CheckAnswer narrow = with_bore(12.5, 0.2);
    CHECK(narrow.verdict == Verdict::fails);
    REQUIRE(miss(narrow) != nullptr);
    CHECK(miss(narrow)->too_narrow);
    CHECK(miss(narrow)->surely);
    const CheckAnswer wide = with_bore(18.5, 0.2);
    CHECK(wide.verdict == Verdict::fails);
    REQUIRE(miss(wide) != nullptr);
    CHECK_FALSE(miss(wide)->too_narrow);
    REQUIRE(miss(with_bore(12.81, 0.2)) != nullptr);
    CHECK_FALSE(miss(with_bore(12.81, 0.2))->surely);
    // A cone that narrows inboard: from 16 to 19.2, and the hub from its bore to 2 more.
    CHECK(miss(with_bore(15.0, -0.2)) == nullptr);
    CHECK(miss(with_bore(13.5, -0.2)) != nullptr);
    CHECK(miss(with_bore(19.5, -0.2)) != nullptr);
}

TEST_CASE("two seats for one part are reconciled") {
    // The cone says 2.0 +-0.1 (two diameters +-0.01 at 1:5), a depth reading says 2.1 +-0.05.
    job::Job job;
    PartOf shaft("shaft", "big");
    shaft.cone("cone", "big", given(16.0, 0.01), 0.2, 16.0);
    job.parts.push_back(shaft);
    PartOf hub("hub", "in");
    hub.cone("bore", "in", given(15.6, 0.01), 0.2, 16.0);
    hub.seat(on_cone(0, {0, 0}));
    job::Seat direct{.kind = job::SeatKind::face_at_offset,
                     .own = 0,
                     .against = {0, 0},
                     .offset = given(2.1, 0.05)};
    hub.seat(direct);
    job.parts.push_back(hub);
    const Bounds seat = gap(model_of(job), {0, 0}, {1, 0});
    // Inverse-variance mean of 2.0 (variance 2 x 0.05^2) and 2.1 (variance 0.05^2).
    CHECK(seat.nominal == doctest::Approx((2.0 / 2 + 2.1) / 1.5).epsilon(1e-13));
    CHECK(seat.worst.lo == doctest::Approx(2.05).epsilon(1e-13));
    CHECK(seat.worst.hi == doctest::Approx(2.1).epsilon(1e-13));
}

TEST_CASE("the skyline finds the same verdicts and the same tightest neighbours as all pairs") {
    job::Job job = pile(60);
    // A cap over the pile that fouls its top by 0.5, seated on the floor.
    PartOf cap("cap", "rim");
    cap.face("inside", given(59.5, 0.2), "rim").face("top", given(3.0), "inside");
    cap.ring("roof", "inside", "top", 0.0, 30.0);
    cap.seat(on_face(0, {0, 0}));
    job.parts.push_back(cap);
    const Model model = model_of(job);
    const Search all = clearances(model, Judge::worst, 1.0);
    const Search few = clearances(model, Judge::worst, 1.0, 10);
    CHECK_FALSE(all.implied_left_out);
    CHECK(few.implied_left_out);
    CHECK(few.pairs.size() < 5);
    const auto fails = [](const Search& search) {
        std::vector<std::string> names;
        for (const Clearance& pair : search.pairs) {
            if (pair.verdict == Verdict::fails) names.push_back(pair.inboard + " " + pair.outboard);
        }
        return names;
    };
    CHECK(fails(all) == std::vector<std::string>{"washer59.top cap.inside"});
    CHECK(fails(few) == fails(all));
    CHECK(first_contact(model, few.pairs)->stands_proud.nominal == doctest::Approx(0.5));
    CHECK(first_contact(model, few.pairs)->stands_proud.worst.hi ==
          doctest::Approx(0.5 + 0.2 + 0.6));
}

TEST_CASE("turning and still parts keep the running clearance; others must only not touch") {
    job::Job job;
    job.running_clearance = 0.5;
    PartOf floor("floor", "top");
    floor.face("under", given(-5.0), "top").ring("slab", "under", "top", 0.0, 50.0);
    job.parts.push_back(floor);
    PartOf wheel("wheel", "in");
    wheel.turns().face("out", given(5.0), "in").ring("disc", "in", "out", 0.0, 40.0);
    job::Seat seat{.kind = job::SeatKind::face_at_offset,
                   .own = 0,
                   .against = {0, 0},
                   .offset = given(0.4, 0.0)};
    // The seat's own pair is excepted: hang the wheel by its outer face, so that the inner one is
    // met.
    seat.own = 1;
    seat.offset = given(5.4, 0.0);
    wheel.seat(seat);
    job.parts.push_back(wheel);
    const auto found = [&] { return clearances(model_of(job), Judge::worst, 1.0).pairs.at(0); };
    CHECK(found().at_least == 0.5);
    CHECK(found().verdict == Verdict::fails);
    job.parts[1].turns = false;
    CHECK(found().more_than);
    CHECK(found().verdict == Verdict::holds);
    job.parts[1].seats[0].offset = given(5.0, 0.0);
    CHECK(found().gap.nominal == 0.0);
    CHECK(found().verdict == Verdict::fails);
}

TEST_CASE("at an offset a seat's own faces are to clear each other, on one another they lie") {
    job::Job job;
    job.running_clearance = 0.4;
    PartOf floor("floor", "under");
    floor.face("top", given(5.0), "under").ring("slab", "under", "top", 0.0, 50.0);
    job.parts.push_back(floor);
    PartOf wheel("wheel", "in");
    wheel.turns().face("out", given(5.0), "in").ring("disc", "in", "out", 0.0, 40.0);
    wheel.seat({.kind = job::SeatKind::face_at_offset,
                .own = 0,
                .against = {0, 1},
                .offset = given(0.1, 0.15)});
    job.parts.push_back(wheel);
    job::Seat& seat = job.parts[1].seats[0];
    const auto found = [&] { return clearances(model_of(job), Judge::worst, 1.0).pairs; };
    REQUIRE(found().size() == 1);
    CHECK(found()[0].verdict == Verdict::fails);
    CHECK(found()[0].gap.worst.lo == doctest::Approx(-0.05));
    // Of parts that turn together nothing is asked but that they do not touch.
    job.parts[0].turns = true;
    CHECK(found()[0].verdict == Verdict::doubtful);
    job.parts[0].turns = false;
    SUBCASE("what it states, and what is enough, is not told once more") {
        seat.offset = given(0.6, 0.15);
        CHECK(found().empty());
    }
    SUBCASE("with play the two are to meet; a part that is in the other is told all the same") {
        seat.play = given(0.05);
        CHECK(found().empty());
        seat.offset = given(-0.6, 0.15);
        REQUIRE(found().size() == 1);
        CHECK(found()[0].verdict == Verdict::fails);
    }
    SUBCASE("shims that may be changed may take the room away") {
        seat.offset = given(0.6, 0.15);
        seat.shims = job::Shims{};
        seat.shims->stock.push_back({.thickness = given(0.1)});
        CHECK(found()[0].verdict == Verdict::holds);
    }
    SUBCASE("faces that lie on one another, by one of two seats") {
        job.parts[1].seats.push_back(on_face(0, {0, 1}));
        CHECK(found().empty());
        job.parts[1].seats.pop_back();
        job.parts[1].seats[0] = on_face(0, {0, 1});
        CHECK(found().empty());
    }
}

TEST_CASE("a boss that lands on the shoulder at the cone's large end is found") {
    job::Job job;
    PartOf shaft("shaft", "tail");
    shaft.turns()
        .face("shoulder", given(30.0), "tail")
        .ring("journal", "tail", "shoulder", 0.0, 20.0);
    shaft.cone("cone", "shoulder", given(15.8), 0.2, 16.0);
    job.parts.push_back(shaft);
    PartOf hub("hub", "mouth");
    hub.turns().face("out", given(20.0), "mouth").ring("boss", "mouth", "out", 16.0, 30.0);
    hub.cone("bore", "mouth", given(16.0), 0.2, 16.0).seat(on_cone(0, {0, 0}));
    job.parts.push_back(hub);
    const Model model = model_of(job);
    const Search found = clearances(model, Judge::worst, 1.0);
    REQUIRE(found.pairs.size() == 1);
    CHECK(found.pairs[0].inboard == "shaft.shoulder");
    CHECK(found.pairs[0].gap.nominal == doctest::Approx(-1.0));
    CHECK(first_contact(model, found.pairs)->part == "hub");
}

TEST_CASE("a verdict forgives rounding and nothing more") {
    const Bounds edge{
        {.nominal = 0.6, .middle = 0.6, .worst = {0.6 - 1e-13, 0.7}, .rss = {0.6, 0.7}}};
    CHECK(verdict(edge, {.least = 0.6, .most = 1.0}, Judge::worst) == Verdict::holds);
    Bounds under = edge;
    under.worst.lo = 0.6 - 1e-8;
    CHECK(verdict(under, {.least = 0.6, .most = 1.0}, Judge::worst) == Verdict::doubtful);
    CHECK(verdict(under, {.least = 0.6, .most = 1.0}, Judge::rss) == Verdict::holds);
    under.nominal = 0.59;
    CHECK(verdict(under, {.least = 0.6, .most = 1.0}, Judge::worst) == Verdict::fails);
    // A nominal that passes while no size within the limits does (50 +0.059 +0.043): fails.
    const Bounds outside{
        {.nominal = 0.0, .middle = 0.05, .worst = {0.043, 0.059}, .rss = {0.043, 0.059}}};
    CHECK(verdict(outside, {.least = -1.0, .most = 0.01}, Judge::worst) == Verdict::fails);
}
