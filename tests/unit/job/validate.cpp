// SPDX-License-Identifier: MIT
#include <doctest/doctest.h>

#include <functional>
#include <limits>
#include <string>
#include <trialfit/job/validity/validate.hpp>

#include "../../support/jobs.hpp"

// Every way to harm a sound job in memory is found, and a sound one is left alone.
namespace trialfit {

namespace {

constexpr double kNaN = std::numeric_limits<double>::quiet_NaN();

job::Job sound() {
    job::Job job = testing::pile(3);
    job.gauges.push_back({.name = "caliper", .half_width = 0.03});
    job.checks.push_back({.name = "height",
                          .of = job::GapOf{.inboard = {0, 0}, .outboard = {3, 1}},
                          .at_least = job::Limit{.value = 1.0}});
    job.readings.push_back({.name = "depth",
                            .from = {0, 0},
                            .to = {3, 1},
                            .is = testing::given(3.0, 0.1),
                            .fitted = {0, 1, 2, 3}});
    job.states.push_back({.name = "run", .all_c = 90.0, .part_c = {{1, 70.0}}});
    return job;
}

std::string first_fault(const job::Job& job) {
    const job::Complaints complaints = job::validate(job);
    return complaints.empty() ? std::string() : complaints.front().fault;
}

struct Harm {
    const char* what;
    std::function<void(job::Job&)> done;
};

job::Part& washer(job::Job& job) {
    return job.parts[2];
}

const Harm kHarms[] = {
    {"no parts", [](job::Job& j) { j.parts.clear(); }},
    {"a part without faces", [](job::Job& j) { washer(j).faces.clear(); }},
    {"two zeros", [](job::Job& j) { washer(j).faces[1].zero = true; }},
    {"a cut read by no gauge",
     [](job::Job& j) {
         washer(j).cuts.push_back({.face = 1, .measure = 0, .keep = 0.1, .read_by = 5});
     }},
    {"a skim read by no gauge",
     [](job::Job& j) { washer(j).skims.push_back({.ring = 0, .keep = 0.1, .read_by = 5}); }},
    {"a record that skims to no diameter",
     [](job::Job& j) {
         j.record.push_back({.as_skimmed = {{{1, 0}, false, testing::given(kNaN, 0.1)}}});
     }},
    {"a record that laps no length off",
     [](job::Job& j) {
         washer(j).cones.push_back({.at_face = 0,
                                    .dia = testing::given(9.0),
                                    .taper = 0.2,
                                    .length = testing::given(1.0)});
         j.record.push_back({.lapped = {{.cone = {2, 0}, .off = kNaN}}});
     }},
    {"a record that leaves no clearance",
     [](job::Job& j) {
         j.record.push_back({.centred = {{.part = 1, .clearance = testing::given(kNaN, 0.1)}}});
     }},
    {"a record that skims no ring",
     [](job::Job& j) {
         j.record.push_back({.as_skimmed = {{{1, 9}, false, testing::given(3.0, 0.1)}}});
     }},
    {"a record that laps no cone",
     [](job::Job& j) {
         j.record.push_back({.lapped = {{{9, 0}, 0.01}}});
     }},
    {"a record that centres no part",
     [](job::Job& j) {
         j.record.push_back({.centred = {{9, testing::given(0.1, 0.1)}}});
     }},
    {"a size from no face", [](job::Job& j) { washer(j).faces[1].dimensions[0].from = 7; }},
    {"a nominal NaN",
     [](job::Job& j) { washer(j).faces[1].dimensions[0].distance.size.nominal = kNaN; }},
    {"a limit without end",
     [](job::Job& j) {
         washer(j).faces[1].dimensions[0].distance.size.upper =
             std::numeric_limits<double>::infinity();
     }},
    {"swapped limits",
     [](job::Job& j) {
         auto& size = washer(j).faces[1].dimensions[0].distance.size;
         std::swap(size.lower, size.upper);
     }},
    {"no sigmas",
     [](job::Job& j) { washer(j).faces[1].dimensions[0].distance.size.spread.sigmas = 0.0; }},
    {"a gauge that is none",
     [](job::Job& j) { washer(j).faces[1].dimensions[0].distance.gauge = 4; }},
    {"a ring without end", [](job::Job& j) { washer(j).rings[0].outboard.face = -1; }},
    {"a bore over its outside", [](job::Job& j) { washer(j).rings[0].bore.size.nominal = 50; }},
    {"seated by no face", [](job::Job& j) { washer(j).seats[0].own = 9; }},
    {"sat against no part", [](job::Job& j) { washer(j).seats[0].against.part = 40; }},
    {"an offset without one",
     [](job::Job& j) { washer(j).seats[0].kind = job::SeatKind::face_at_offset; }},
    {"two parts without seats", [](job::Job& j) { washer(j).seats.clear(); }},
    {"a circle of seats",
     [](job::Job& j) {
         washer(j).seats[0].against = {3, 1};
     }},
    {"a negative clearance", [](job::Job& j) { j.running_clearance = -1.0; }},
    {"a check of no face",
     [](job::Job& j) { std::get<job::GapOf>(j.checks[0].of).outboard.face = 5; }},
    {"a check without limits", [](job::Job& j) { j.checks[0].at_least.reset(); }},
    {"crossed limits", [](job::Job& j) { j.checks[0].at_most = job::Limit{.value = 0.5}; }},
    {"a limit NaN", [](job::Job& j) { j.checks[0].at_least->value = kNaN; }},
    {"a reading of no face", [](job::Job& j) { j.readings[0].from.part = -1; }},
    {"a reading with no such part", [](job::Job& j) { j.readings[0].fitted.push_back(8); }},
    {"a state of no part", [](job::Job& j) { j.states[0].part_c[12] = 20.0; }},
    {"a temperature NaN", [](job::Job& j) { j.states[0].all_c = kNaN; }},
    {"a gauge NaN", [](job::Job& j) { j.gauges[0].half_width = kNaN; }},
    {"a cut of no face",
     [](job::Job& j) { washer(j).cuts.push_back({.face = 1, .measure = 6, .keep = 0.5}); }},
    {"a skim of no ring", [](job::Job& j) { washer(j).skims.push_back({.ring = 3}); }},
    {"a lap of no cone", [](job::Job& j) { washer(j).laps.push_back({.cone = 0}); }},
    {"centred on nothing", [](job::Job& j) { washer(j).centred = job::Centring{.on = 17}; }},
    {"two runouts at one height",
     [](job::Job& j) {
         washer(j).runout = {{.is = testing::given(0.01), .face = 0},
                             {.is = testing::given(0.02), .face = 0}};
     }},
    {"a face runout on no diameter",
     [](job::Job& j) { washer(j).face_runout = job::FaceRunout{.is = testing::given(0.01)}; }},
    {"a torque the wrong way round",
     [](job::Job& j) {
         j.seat = job::SeatService{.nut_torque_nm = job::Span{.least = 40, .greatest = 30}};
     }},
    {"an entry in force that is none", [](job::Job& j) { j.in_force = 2; }},
};

}  // namespace

TEST_CASE("a sound job has no complaint") {
    CHECK(first_fault(sound()).empty());
    CHECK(first_fault(testing::pile(200)).empty());
}

TEST_CASE("every harm to a job in memory is complained of") {
    for (const Harm& harm : kHarms) {
        CAPTURE(harm.what);
        job::Job job = sound();
        harm.done(job);
        CHECK(!first_fault(job).empty());
    }
}

TEST_CASE("a complaint about a job in memory says what and what to do") {
    job::Job job = sound();
    std::swap(washer(job).faces[1].dimensions[0].distance.size.lower,
              washer(job).faces[1].dimensions[0].distance.size.upper);
    const job::Complaints complaints = job::validate(job);
    REQUIRE(complaints.size() == 1);
    CHECK(complaints[0].fault == "the limits of the size of washer1.top are the wrong way round");
    CHECK(complaints[0].mend == "swap them");
}

}  // namespace trialfit
