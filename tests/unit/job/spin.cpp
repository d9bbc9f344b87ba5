// SPDX-License-Identifier: MIT
#include <doctest/doctest.h>

#include <cmath>
#include <trialfit/job/validity/spin.hpp>

using namespace trialfit;

namespace {

job::Job with(const job::Spin& spin) {
    job::Job job;
    job.spin = spin;
    return job;
}

// The fault of a section in which one thing is wrong.
template <typename Change>
std::string fault_of(const Change& change) {
    job::Spin spin;
    change(spin);
    const job::Complaints complaints = job::validate_spin(with(spin));
    REQUIRE(complaints.size() == 1);
    return complaints.front().fault;
}

}  // namespace

TEST_CASE("an empty section, and one within its bounds, are sound; a job without one is too") {
    CHECK(job::validate_spin(job::Job{}).empty());
    CHECK(job::validate_spin(with({})).empty());
    job::Spin spin;
    spin.crank_inertia_kg_m2 = job::Span{1e-3, 2e-3, {}};
    spin.starter = job::StarterTorque{.torque_nm = {0.0, 3.0, {}}, .turns = {1.0, 1.0, {}}};
    spin.compression = job::Span{6.0, 7.0, {}};
    spin.under_piston = job::Span{0.0, 1.0, {}};
    CHECK(job::validate_spin(with(spin)).empty());
}

TEST_CASE("a figure of a section made in memory that is beyond its bounds is refused") {
    const double nan = std::nan("");
    CHECK(fault_of([](job::Spin& s) {
              s.crank_inertia_kg_m2 = job::Span{0.0, 1.0, {}};
          }) == "'crank_inertia' is the wrong way round or beyond its bounds");
    CHECK(fault_of([](job::Spin& s) {
              s.compression = job::Span{7.0, 6.0, {}};
          }) == "'compression' is the wrong way round or beyond its bounds");
    CHECK(fault_of([](job::Spin& s) {
              s.compression = job::Span{1.0, 6.0, {}};
          }) == "'compression' is the wrong way round or beyond its bounds");
    CHECK(fault_of([nan](job::Spin& s) {
              s.drag_nm = job::Span{nan, nan, {}};
          }) == "'drag' is the wrong way round or beyond its bounds");
    CHECK(fault_of([](job::Spin& s) {
              s.exponent = job::Span{1.2, 20.0, {}};
          }) == "'exponent' is the wrong way round or beyond its bounds");
    CHECK(fault_of([](job::Spin& s) {
              s.idle_rpm = job::Span{0.0, 1200.0, {}};
          }) == "'idle' is the wrong way round or beyond its bounds");
    CHECK(fault_of([](job::Spin& s) {
              s.starter = job::StarterSpeed{.speed_rpm = {0.0, 0.0, {}}};
          }) == "'speed' is the wrong way round or beyond its bounds");
    CHECK(fault_of([](job::Spin& s) {
              s.starter = job::StarterEnergy{.energy_j = {-1.0, 2.0, {}}};
          }) == "'energy' is the wrong way round or beyond its bounds");
    CHECK(fault_of([](job::Spin& s) { s.bore = job::Given{.size = quantity::exact(0.0)}; }) ==
          "'bore' is no diameter");
    CHECK(fault_of([nan](job::Spin& s) {
              s.closes_at = job::AngleGiven{.value = {.size = quantity::exact(nan)}};
          }) == "'closes_at' is no angle and no height");
}
