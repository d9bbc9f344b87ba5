// SPDX-License-Identifier: MIT
// A hub on a cone, a nut to draw it home, and little else: made in memory for the seat's tests.
#pragma once

#include <doctest/doctest.h>

#include <algorithm>
#include <string>
#include <support/jobs.hpp>
#include <trialfit/seat/seat.hpp>
#include <trialfit/trade/thread/thread.hpp>
#include <variant>

namespace trialfit::testing {

/// What a test may change about it. mm, N m, MPa.
struct TightJob {
    double taper = 0.2;
    double mean_dia = 15.0;
    double contact = 16.0;  ///< length of both cones
    double hub_od = 30.0;
    double hub_modulus = 207000.0;
    double hub_poisson = 0.292;
    double hub_yield = 450.0;
    std::string bolt_form = "M10x1.25-6g";
    std::string nut_form = "M10x1.25-6H";
    std::string bolt_class = "8.8";
    std::string nut_class = "8";
    double nut_od = 14.0;
    double nut_bore = 10.0;
    job::Span torque{30.0, 40.0, {}};
    job::Span thread_friction{0.12, 0.16, {}};
    job::Span face_friction{0.12, 0.16, {}};
    job::Span cone_friction{0.12, 0.16, {}};
    double needed = 20.0;
    double thread_from = 20.0;  ///< from the cone's large end
};

inline job::Thread thread_of(const std::string& form, const std::string& property_class, int from,
                             int to) {
    job::Thread thread{.name = "thread", .from = from, .to = to};
    thread.form = *trade::thread(form);
    thread.lead_in = thread.run_out = given(0.0);
    thread.property_class = property_class;
    return thread;
}

inline job::Job job_of(const TightJob& with) {
    const double large = with.mean_dia + with.taper * with.contact / 2.0;
    job::Job job;
    job.materials = {{.name = "test steel",
                      .density_kg_m3 = 7850.0,
                      .modulus_mpa = 207000.0,
                      .poisson = 0.292,
                      .strength_mpa = 600.0},
                     {.name = "test hub",
                      .density_kg_m3 = 7850.0,
                      .modulus_mpa = with.hub_modulus,
                      .poisson = with.hub_poisson,
                      .strength_mpa = with.hub_yield}};
    PartOf crank("crank", "cone_big");
    crank.turns()
        .face("thread_in", given(with.thread_from), "cone_big")
        .face("end", given(40.0), "cone_big")
        .cone("cone", "cone_big", given(large), with.taper, with.contact);
    job::Part shaft = crank;
    shaft.material = "test steel";
    shaft.threads = {thread_of(with.bolt_form, with.bolt_class, 1, 2)};
    PartOf rotor("rotor", "boss_in");
    rotor.turns()
        .face("nut_seat", given(25.0), "boss_in")
        .ring("boss", "boss_in", "nut_seat", 10.0, with.hub_od)
        .cone("bore", "boss_in", given(large), with.taper, with.contact)
        .seat(on_cone(0, {.part = 0, .index = 0}));
    job::Part hub = rotor;
    hub.material = "test hub";
    PartOf turned("nut", "seat");
    turned.turns()
        .face("top", given(8.0), "seat")
        .ring("hex", "seat", "top", with.nut_bore, with.nut_od)
        .seat(on_face(0, {.part = 1, .face = 1}));
    job::Part nut = turned;
    nut.material = "test steel";
    nut.threads = {thread_of(with.nut_form, with.nut_class, 0, 1)};
    job.parts = {shaft, hub, nut};
    job.seat = job::SeatService{.nut_torque_nm = with.torque,
                                .thread_friction = with.thread_friction,
                                .under_nut_friction = with.face_friction,
                                .cone_friction = with.cone_friction,
                                .engine_torque_nm = job::Span{with.needed, with.needed, {}}};
    return job;
}

/// Puts a plate under the hub of a job_of, on which the hub lands 2 mm before its seat.
inline void put_plate_in_the_way(job::Job& job) {
    PartOf plate("plate", "back");
    plate.face("front", given(2.0), "back").ring("disc", "back", "front", 20.0, 60.0);
    plate.seat(on_face(0, {.part = 0, .face = 0}));
    job.parts.insert(job.parts.begin() + 1, plate);
    job.parts[2].seats[0].on_cone.part = 0;
    job.parts[3].seats[0].against.part = 2;
}

inline seat::SeatAnswer answer_of(const job::Job& job) {
    const auto outcome = seat::seat(job);
    if (const auto* complaints = std::get_if<job::Complaints>(&outcome))
        FAIL(complaints->front().fault);
    return std::get<seat::SeatAnswer>(outcome);
}

inline std::string complaint_of(const job::Job& job) {
    const auto outcome = seat::seat(job);
    const auto* complaints = std::get_if<job::Complaints>(&outcome);
    if (complaints == nullptr) return "no complaint";
    return complaints->front().fault + "; " + complaints->front().mend;
}

inline const seat::SeatFinding& finding_of(const seat::SeatAnswer& answer, seat::FindingId id) {
    const auto found = std::find_if(answer.findings.begin(), answer.findings.end(),
                                    [&](const seat::SeatFinding& each) { return each.id == id; });
    REQUIRE_MESSAGE(found != answer.findings.end(), static_cast<int>(id));
    return *found;
}

}  // namespace trialfit::testing
