// SPDX-License-Identifier: MIT
#include <doctest/doctest.h>

#include <limits>
#include <trialfit/draw/section/section.hpp>
#include <trialfit/odds/odds.hpp>
#include <trialfit/seat/seat.hpp>
#include <trialfit/sheet/sheet.hpp>
#include <trialfit/spin/spin.hpp>
#include <trialfit/stack/change/as_built.hpp>
#include <trialfit/stack/check/check.hpp>
#include <trialfit/survey/survey.hpp>
#include <trialfit/timing/timing.hpp>
#include <variant>

#include "../../support/jobs.hpp"

// A job made in memory that is none gets complaints from every answer, and no answer throws.
namespace trialfit {

namespace {

void refused_by_all(const job::Job& job) {
    const auto complained = [](const auto& outcome) {
        const auto* const complaints = std::get_if<job::Complaints>(&outcome);
        return complaints != nullptr && !complaints->empty();
    };
    CHECK(complained(stack::check(job, {})));
    CHECK(complained(stack::why(job, "height", {})));
    CHECK(complained(stack::model_for(job, {})));  // what plan stands on
    CHECK(complained(stack::as_built(job, 0)));
    CHECK(complained(odds::odds(job, {})));
    CHECK(complained(survey::survey(job)));
    CHECK(complained(seat::seat(job)));
    CHECK(complained(timing::timing(job)));
    CHECK(complained(spin::spin(job, {})));
    CHECK(complained(draw::section(job, {})));
    CHECK(complained(sheet::sheet(job, {}, "")));
}

}  // namespace

TEST_CASE("an empty job in memory") {
    refused_by_all({});
}

TEST_CASE("a job in memory with swapped limits") {
    job::Job job = testing::pile(3);
    auto& size = job.parts[1].faces[1].dimensions[0].distance.size;
    std::swap(size.lower, size.upper);
    refused_by_all(job);
}

TEST_CASE("a job in memory with a size that is no number") {
    job::Job job = testing::pile(3);
    job.parts[1].faces[1].dimensions[0].distance.size.nominal =
        std::numeric_limits<double>::quiet_NaN();
    refused_by_all(job);
}

TEST_CASE("a job in memory with an index that leads nowhere") {
    job::Job job = testing::pile(3);
    job.parts[2].seats[0].against.part = 99;
    refused_by_all(job);
}

}  // namespace trialfit
