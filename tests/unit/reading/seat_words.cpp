// SPDX-License-Identifier: MIT
#include "everything.hpp"
#include "support.hpp"

using namespace trialfit::test;

namespace {

// The complaints with one place of the made-up job changed, without their line and column.
std::string told(std::string_view old, std::string_view fresh) {
    const std::string all = complaints(with(kEverything, old, fresh));
    return all.substr(std::min(all.size(), all.find("error: ")));
}

}  // namespace

TEST_CASE("the seat's hub and nut, a thread's class and a metal's tensile strength are read") {
    const auto job = read(with(
        with(with(kEverything, "seat: {nut_torque", "seat: {hub: hub, nut: nut.thread, nut_torque"),
             "run_out: 0.5 ±0.1}", "run_out: 0.5 ±0.1, class: 8.8}"),
        "strength: 180}", "strength: 180, tensile: 250}"));
    REQUIRE(job.seat);
    CHECK(job.parts.at(static_cast<std::size_t>(job.seat->hub.value())).name == "hub");
    CHECK(job.seat->nut == trialfit::job::ThreadRef{4, 0});
    CHECK(job.parts[1].threads[0].property_class == "8.8");
    CHECK(job.parts[1].threads[0].property_class_at.line == 25);
    CHECK(job.materials[0].tensile_mpa == 250.0);
    const auto plain = read(kEverything);
    CHECK_FALSE(plain.seat->hub);
    CHECK_FALSE(plain.seat->nut);
    CHECK(plain.parts[1].threads[0].property_class.empty());
    CHECK_FALSE(plain.materials[0].tensile_mpa.has_value());
}

TEST_CASE("a nut's class will do for a nut, a bolt's for a bolt") {
    for (const char* known : {"8", "10", "8.8", "10.9", "A2-70"})
        CHECK(complaints(with(kEverything, "run_out: 0.5 ±0.1}",
                              std::string("run_out: 0.5 ±0.1, class: ") + known + "}"))
                  .empty());
    CHECK(told("run_out: 0.5 ±0.1}", "run_out: 0.5 ±0.1, class: 8.9}")
              .starts_with("error: '8.9' is no property class; write 8.8, 10.9, A2-70 or grade 5"));
}

TEST_CASE("what the seat cannot be is refused with its mend") {
    CHECK(told("thread_friction: 0.10..0.16", "thread_friction: 10..16")
              .starts_with("error: 'thread_friction' is '10..16'; a coefficient of friction is a "
                           "share of 1, as in 0.10..0.16"));
    CHECK(told("cone_friction: 0.1,", "cone_friction: -0.1,")
              .starts_with("error: 'cone_friction' is '-0.1'; it cannot be less than 0"));
    CHECK(told("nut_torque: 30..40 N m", "nut_torque: -30 N m")
              .starts_with("error: 'nut_torque' is '-30 N m'; it cannot be less than 0"));
    CHECK(told("seat: {", "seat: {hub: hob, ")
              .starts_with("error: the hub of 'seat' is 'hob', which is not a part; did you mean "
                           "'hub'?"));
    CHECK(told("seat: {", "seat: {nut: nut.top, ")
              .starts_with("error: the nut of 'seat' is 'nut.top', which is a face and not a "
                           "thread"));
    CHECK(told("strength: 180}", "strength: 180, tensile: 90}")
              .starts_with("error: 'bell bronze' yields at 180 MPa and breaks at 90; 'strength' is "
                           "the yield strength, 'tensile' the greater one; swap them"));
}
