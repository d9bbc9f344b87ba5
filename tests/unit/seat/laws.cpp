// SPDX-License-Identifier: MIT
#include <doctest/doctest.h>

#include <array>
#include <cstdint>
#include <random>
#include <support/fewer.hpp>
#include <trialfit/stack/metal.hpp>
#include <trialfit/stack/tightened/load.hpp>
#include <unit/seat/tight_job.hpp>

using namespace trialfit;
using namespace trialfit::testing;

namespace {

seat::Estimate estimate(const job::Span& span) {
    return {span.least, (span.least + span.greatest) / 2.0, span.greatest};
}

}  // namespace

TEST_CASE("draw-up and the torque held rise with the nut's torque") {
    double draw_up = 0.0;
    double held = 0.0;
    for (double torque = 5.0; torque <= 45.0; torque += 2.5) {
        TightJob with;
        with.torque = {torque, torque, {}};
        const auto answer = answer_of(job_of(with));
        REQUIRE(answer.draw_up_known);
        CHECK(answer.draw_up.middle > draw_up);
        CHECK(answer.held_nm->least > held);
        draw_up = answer.draw_up.middle;
        held = answer.held_nm->least;
    }
}

TEST_CASE("the engagement needed grows as the nut gets weaker") {
    double needed = 0.0;
    double first = 0.0;
    for (const double tensile : {1200.0, 900.0, 700.0, 500.0, 300.0, 150.0}) {
        auto job = job_of({});
        job.parts[2].threads[0].property_class.clear();
        job.parts[2].material = "soft";
        job.materials.push_back({.name = "soft", .tensile_mpa = tensile});
        const auto outcome = stack::engagement_for_strength(job, {.one = {2, 0}, .other = {0, 0}});
        const auto* const found = std::get_if<trade::EngagementNeeded>(&outcome);
        REQUIRE(found != nullptr);
        CHECK(found->needed_mm >= needed);
        needed = found->needed_mm;
        if (first == 0.0) first = needed;
    }
    CHECK(needed > 2.0 * first);  // and not merely the same each time
}

TEST_CASE("no point within the ranges is worse than the corners say") {
    TightJob with;
    with.thread_friction = {0.05, 0.30, {}};
    with.face_friction = {0.06, 0.25, {}};
    with.cone_friction = {0.101, 0.30, {}};
    auto job = job_of(with);
    job.parts[0].cones[0].dia.size = quantity::toleranced(16.6, -0.05, 0.05);
    job.parts[1].cones[0].dia.size = quantity::toleranced(16.4, -0.05, 0.05);
    job.parts[1].faces[1].dimensions[0].distance.size = quantity::toleranced(25.0, -0.3, 0.3);
    const auto built = stack::Model::of(job);
    const auto made = stack::joint_of(std::get<stack::Model>(built));
    const auto& joint = std::get<stack::Joint>(made);
    const stack::Tightening tightening{.torque_nm = estimate(with.torque),
                                       .thread_friction = estimate(with.thread_friction),
                                       .face_friction = estimate(with.face_friction),
                                       .cone_friction = estimate(with.cone_friction)};
    // Held to a greatest, but for the cone's torque, which is held to a least.
    constexpr std::array kFigures{&stack::Load::cone_torque_nm,   &stack::Load::thread_stress_mpa,
                                  &stack::Load::bolt_strip_share, &stack::Load::nut_strip_share,
                                  &stack::Load::nut_proof_share,  &stack::Load::hub_stress_mpa,
                                  &stack::Load::draw_up_mm,       &stack::Load::cone_pressure_mpa};
    std::mt19937_64 random(20261125);
    const auto within = [&](const seat::Estimate& range) {
        return std::uniform_real_distribution<double>(range.least, range.greatest)(random);
    };
    for (const auto figure : kFigures) {
        const seat::Estimate all = stack::over_all(joint, tightening, figure);
        for (int i = 0; i < static_cast<int>(testing::fewer(2000)); ++i) {
            const stack::Corner at{
                .torque_nm = within(tightening.torque_nm),
                .thread_friction = within(tightening.thread_friction),
                .face_friction = within(tightening.face_friction),
                .cone_friction = within(tightening.cone_friction),
                .face_mean_mm = within(joint.face_mean),
                .engaged_mm = within(joint.engaged),
                .contact = joint.contacts.at(static_cast<std::size_t>(i) % joint.contacts.size())};
            const double value = stack::load_at(joint, at).*figure;
            REQUIRE(value <= all.greatest * (1.0 + 1e-12));
            if (figure == &stack::Load::cone_torque_nm) REQUIRE(value >= all.least * (1.0 - 1e-12));
        }
    }
}
