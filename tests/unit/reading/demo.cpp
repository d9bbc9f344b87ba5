// SPDX-License-Identifier: MIT
#include <string>

#include "support.hpp"

using namespace trialfit;
using doctest::Approx;

namespace {

job::Job demo() {
    return test::read(test::file_text(TRIALFIT_SOURCE_DIR "/examples/pump-engine.yaml"));
}

const job::Part& part(const job::Job& job, std::string_view name) {
    for (const job::Part& each : job.parts)
        if (each.name == name) return each;
    FAIL("no part of that name");
    return job.parts.front();
}

}  // namespace

TEST_CASE("the demo's head and its parts in their order") {
    const job::Job job = demo();
    CHECK(job.title == "Electronic ignition on a 98 cc pump engine");
    CHECK(job.units == quantity::Unit::mm);
    CHECK(job.running_clearance == 0.5);
    CHECK(job.general_tolerance == 0);
    CHECK(job.shim_cost == 0.1);
    REQUIRE(job.gauges.size() == 3);
    CHECK(job.gauges[1].name == "depth_gauge");
    CHECK(job.gauges[1].half_width == 0.02);
    std::string names;
    std::string turning;
    for (const job::Part& each : job.parts) {
        names += each.name + " ";
        if (each.turns) turning += each.name + " ";
    }
    CHECK(names == "case crank plate stator rotor washer nut cover ");
    CHECK(turning == "crank rotor washer nut ");
}

TEST_CASE("the demo's sizes, with their words and places") {
    const job::Job job = demo();
    const job::Face& front = part(job, "plate").faces.at(1);
    CHECK(front.name == "front");
    REQUIRE(front.dimensions.size() == 1);
    const job::Given& size = front.dimensions[0].distance;
    CHECK(front.dimensions[0].from == 0);
    CHECK(size.written == "10.00 by caliper");
    CHECK(size.at == job::Place{.line = 38, .column = 14});
    CHECK(size.gauge == 0);
    CHECK(size.size.nominal == 10.0);
    CHECK(size.size.upper == Approx(10.03).epsilon(1e-14));
    CHECK(size.size.spread.shape == quantity::Shape::uniform);
    CHECK(part(job, "plate").faces.at(0).zero);

    const job::Face& top = part(job, "nut").faces.at(1);
    CHECK(top.dimensions.at(0).distance.size.lower == Approx(7.64).epsilon(1e-14));
    CHECK(top.dimensions.at(0).distance.size.upper == 8.0);
    // `rim: -16.00 by depth_gauge from cup_floor`: measured from a face that is no zero.
    const job::Part& rotor = part(job, "rotor");
    CHECK(rotor.faces.at(3).name == "rim");
    CHECK(rotor.faces.at(static_cast<std::size_t>(rotor.faces.at(3).dimensions.at(0).from)).name ==
          "cup_floor");
    CHECK(rotor.faces.at(3).dimensions.at(0).distance.size.nominal == -16.0);
}

TEST_CASE("the demo's rings, cones and threads") {
    const job::Job job = demo();
    const job::Ring& pocket = part(job, "case").rings.at(0);
    CHECK(job::name(job, 0, pocket.inboard) == "case.floor -5");
    CHECK(job::name(job, 0, pocket.outboard) == "case.floor");
    const job::Ring& roof = part(job, "cover").rings.at(0);
    CHECK(job::name(job, 7, roof.inboard) == "cover.inside");
    CHECK(job::name(job, 7, roof.outboard) == "cover.inside +3");
    CHECK(roof.bore.size.nominal == 0.0);
    CHECK(roof.outside.size.nominal == 100.0);
    CHECK(roof.outside.size.half_width() == 0.0);
    const job::Cone& crank = part(job, "crank").cones.at(0);
    CHECK(crank.name == "cone");
    CHECK(crank.taper == Approx(0.2).epsilon(1e-15));
    CHECK(crank.taper_written == "1 in 5");
    CHECK(crank.dia.size.half_width() == Approx(0.005).epsilon(1e-12));
    CHECK(part(job, "rotor").cones.at(0).name == "bore");
    const job::Thread& thread = part(job, "crank").threads.at(0);
    CHECK(thread.name == "thread");
    CHECK(thread.form.d_mm == 10.0);
    CHECK(thread.form.pitch_mm == 1.25);
    CHECK(thread.lead_in.size.nominal == 1.25);
    CHECK(thread.run_out.size.nominal == 0.0);
}

TEST_CASE("the demo's seats, shims and cuts") {
    const job::Job job = demo();
    CHECK(part(job, "case").seats.empty());
    const job::Seat& crank = part(job, "crank").seats.at(0);
    CHECK(crank.kind == job::SeatKind::face_at_offset);
    CHECK(crank.against == job::FaceRef{.part = 0, .face = 0});
    REQUIRE(crank.offset);
    CHECK(crank.offset->size.nominal == 6.0);
    CHECK(crank.offset->gauge == 1);
    REQUIRE(crank.play);
    CHECK(crank.play->size.lower == 0.05);
    CHECK(crank.play->size.upper == 0.15);
    const job::Seat& rotor = part(job, "rotor").seats.at(0);
    CHECK(rotor.kind == job::SeatKind::cone_on_cone);
    CHECK(rotor.own_cone == 0);
    CHECK(rotor.on_cone == job::ConeRef{.part = 1, .index = 0});
    const job::Seat& stator = part(job, "stator").seats.at(0);
    CHECK(stator.kind == job::SeatKind::face_on_face);
    REQUIRE(stator.shims);
    CHECK(stator.shims->stock.size() == 4);
    CHECK(stator.shims->at_most == 3);
    CHECK(stator.shims->stock[2].thickness.size.lower == Approx(0.49).epsilon(1e-14));
    CHECK(stator.shims->fitted.empty());
    REQUIRE(part(job, "cover").seats.at(0).shims);
    CHECK(part(job, "cover").seats.at(0).shims->fitted.at(0).size == quantity::exact(1.6));
    const job::Cut& rim = part(job, "rotor").cuts.at(0);
    CHECK(rim.face == 3);
    CHECK(rim.measure == 2);
    CHECK(rim.keep == 14.5);
    CHECK(rim.holds == 0.05);
    CHECK(rim.cost == 5.0);
    CHECK(rim.cost_per_mm == 0.1);
    CHECK(rim.note == "rebalance afterwards");
}

TEST_CASE("the demo's checks and readings") {
    const job::Job job = demo();
    REQUIRE(job.checks.size() == 3);
    CHECK(job.checks[0].name == "rotor clear of coils");
    const auto& gap = std::get<job::GapOf>(job.checks[0].of);
    CHECK(job::name(job, gap.inboard) == "stator.coil_out");
    CHECK(job::name(job, gap.outboard) == "rotor.cup_floor");
    CHECK(job.checks[0].at_least->value == 0.6);
    const auto& overlap = std::get<job::OverlapOf>(job.checks[1].of);
    CHECK(job::ring_name(job, overlap.of) == "stator.poles");
    CHECK(job::ring_name(job, overlap.by) == "rotor.magnets");
    CHECK(job.checks[1].at_least->in == job::LimitIn::share);
    CHECK(job.checks[1].at_least->value == 0.75);
    CHECK(job.checks[1].at_least->written == "75 %");
    CHECK(job.checks[2].at_least->in == job::LimitIn::diameters);
    CHECK(job.checks[2].at_least->value == 0.7);
    REQUIRE(job.readings.size() == 2);
    CHECK(job.readings[0].fitted == std::vector<job::PartId>{0, 1, 4});
    CHECK(job.readings[0].pushed == job::Pushed::out);
    CHECK(job.readings[0].is.size.nominal == 13.97);
    CHECK(!job.readings[0].touching);
}
