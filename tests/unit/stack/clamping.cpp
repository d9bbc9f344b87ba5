// SPDX-License-Identifier: MIT
// A nut that runs out of thread before it is home clamps nothing.
#include <doctest/doctest.h>

#include <algorithm>
#include <support/jobs.hpp>
#include <trialfit/stack/check/check.hpp>
#include <trialfit/stack/clearance/clamping.hpp>
#include <variant>

using namespace trialfit;
using namespace trialfit::stack;
using testing::given;
using testing::PartOf;

namespace {

job::Seat on(int part, int face) {
    return {.own = 0, .against = {.part = part, .face = face}};
}

// A shaft with a shoulder at 0 and thread from `thread_in` to 30; a washer of `washer` on the
// shoulder, a nut of 8 on the washer, counterbored by `bored`.
job::Job screwed(double thread_in, double washer, double bored = 0.0) {
    job::Job job;
    job.parts.push_back(PartOf("shaft", "shoulder")
                            .face("thread_in", given(thread_in), "shoulder")
                            .face("end", given(30.0), "shoulder")
                            .thread("thread_in", "end", given(0.0), given(0.0)));
    job.parts.push_back(
        PartOf("washer", "under").face("top", given(washer), "under").seat(on(0, 0)));
    job.parts.push_back(PartOf("nut", "seat")
                            .face("bored", given(bored), "seat")
                            .face("top", given(8.0), "seat")
                            .thread("bored", "top", given(0.0), given(0.0))
                            .seat(on(1, 1)));
    return job;
}

CheckResult clamp_in(const job::Job& job) {
    const auto found = check(job, {});
    const auto& answer = std::get<CheckAnswer>(found);
    const auto clamp =
        std::find_if(answer.checks.begin(), answer.checks.end(),
                     [](const CheckResult& each) { return each.kind == CheckKind::clamp; });
    REQUIRE(clamp != answer.checks.end());
    return *clamp;
}

}  // namespace

TEST_CASE("the thread left under a nut is from where the whole turns end to the washer") {
    CHECK(clamp_in(screwed(1.5, 2.0)).value.nominal == doctest::Approx(0.5));
    CHECK(clamp_in(screwed(1.5, 2.0)).verdict == Verdict::holds);
    CHECK(clamp_in(screwed(2.5, 2.0)).value.nominal == doctest::Approx(-0.5));
    CHECK(clamp_in(screwed(2.5, 2.0)).verdict == Verdict::fails);
    CHECK(clamp_in(screwed(2.5, 3.0)).verdict == Verdict::holds);
    CHECK(clamp_in(screwed(2.5, 2.0, 1.0)).value.nominal == doctest::Approx(0.5));
    // None left is too little.
    CHECK(clamp_in(screwed(2.0, 2.0)).verdict == Verdict::fails);
}

TEST_CASE("incomplete turns at the thread's inner end count as none") {
    job::Job job = screwed(1.0, 2.0);
    job.parts[0].threads[0].run_out = given(1.25);
    CHECK(clamp_in(job).value.nominal == doctest::Approx(-0.25));
}

TEST_CASE("with the axis turned round it is the same") {
    for (const double thread_in : {1.5, 2.5}) {
        job::Job job = screwed(thread_in, 2.0);
        for (job::Part& part : job.parts)
            for (job::Face& face : part.faces)
                for (job::Dimension& each : face.dimensions)
                    each.distance = given(-each.distance.size.nominal);
        CHECK(clamp_in(job).value.nominal == doctest::Approx(2.0 - thread_in));
    }
}

TEST_CASE("a bolt's shank must not reach the tapped hole before its head is home") {
    job::Job job;
    job.parts.push_back(PartOf("case", "bottom")
                            .face("mouth", given(12.0), "bottom")
                            .thread("bottom", "mouth", given(0.0), given(0.0)));
    job.parts.push_back(PartOf("plate", "back").face("front", given(5.0), "back").seat(on(0, 1)));
    PartOf bolt("bolt", "under_head");
    bolt.face("shank", given(-4.0), "under_head").face("tip", given(-14.0), "under_head");
    bolt.thread("shank", "tip", given(0.0), given(0.0)).seat(on(1, 1));
    job.parts.push_back(bolt);
    job.parts[0].threads[0].form.tolerance = trade::ThreadClass{.internal = true};
    job.parts[2].threads[0].form.tolerance = trade::ThreadClass{.internal = false};
    CHECK(clamp_in(job).value.nominal == doctest::Approx(1.0));
    job.parts[2].faces[1].dimensions[0].distance = given(-6.0);
    CHECK(clamp_in(job).value.nominal == doctest::Approx(-1.0));
    CHECK(clamp_in(job).verdict == Verdict::fails);
}

TEST_CASE("what a nut screws onto is said to be unknown where two threads would do") {
    job::Job job = screwed(1.5, 2.0);
    job.parts.push_back(PartOf("stud", "in")
                            .face("out", given(20.0), "in")
                            .thread("in", "out", given(0.0), given(0.0)));
    CHECK(clamp_checks(job).empty());
    CHECK(clamps_not_assessed(job).size() == 1);
}
