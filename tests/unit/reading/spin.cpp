// SPDX-License-Identifier: MIT
#include <doctest/doctest.h>

#include <string>
#include <trialfit/reading/read.hpp>
#include <trialfit/reading/write/write.hpp>
#include <variant>

using namespace trialfit;
using doctest::Approx;

namespace {

job::Job read_spin(const std::string& section) {
    const auto outcome = reading::read_job(
        "trialfit: 1\nunits: in\nparts:\n  - part: case\n    faces: {floor: zero}\nspin: {" +
            section + "}\n",
        "spin.yaml");
    REQUIRE(outcome.job);
    return *outcome.job;
}

}  // namespace

TEST_CASE("every figure of 'spin' is read in its unit, and ranges at both ends") {
    const job::Spin spin =
        *read_spin(
             "crank_inertia: 12..14 kg cm2, drag: 0.4, starter: {energy: 8..9 J}, bore: 1.75, "
             "compression: 6..7, exponent: 1.3, closes_at: 92 deg ±1, air_pressure: 99 kPa, "
             "under_piston: 0.8..1, spark_from: 300..320 rpm, idle: 1200")
             .spin;
    CHECK(spin.crank_inertia_kg_m2->least == Approx(12e-4).epsilon(1e-15));
    CHECK(spin.crank_inertia_kg_m2->greatest == Approx(14e-4).epsilon(1e-15));
    CHECK(spin.drag_nm->least == 0.4);
    CHECK(std::get<job::StarterEnergy>(*spin.starter).energy_j.greatest == 9.0);
    CHECK(spin.bore->size.nominal == 1.75);
    CHECK(spin.compression->least == 6.0);
    CHECK(spin.exponent->greatest == 1.3);
    CHECK(spin.closes_at->value.size.upper == 93.0);
    CHECK(spin.air_kpa->least == 99.0);
    CHECK(spin.under_piston->least == 0.8);
    CHECK(spin.spark_from_rpm->greatest == 320.0);
    CHECK(spin.idle_rpm->least == 1200.0);
}

TEST_CASE("each starter is read, and written again as the same") {
    for (const std::string starter :
         {"{energy: 8 J}", "{torque: 3..4 N m, turns: 1.5}", "{speed: 500..600 rpm}"}) {
        const job::Job one = read_spin("crank_inertia: 3 lb in2, starter: " + starter);
        const auto written = reading::write(one);
        REQUIRE(written.text);
        const auto again = reading::read_job(*written.text, "spin.yaml");
        REQUIRE(again.job);
        const job::Spin& other = *again.job->spin;
        CHECK(other.crank_inertia_kg_m2->least == one.spin->crank_inertia_kg_m2->least);
        CHECK(other.starter->index() == one.spin->starter->index());
        CHECK(reading::write(*again.job).text == written.text);
    }
}
