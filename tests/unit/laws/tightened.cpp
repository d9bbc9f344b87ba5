// SPDX-License-Identifier: MIT
// The state in which the nut has drawn the hub home, on the examples that state a torque.
#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <string>
#include <support/examples.hpp>
#include <trialfit/stack/check/check.hpp>
#include <variant>
#include <vector>

#include "support/messages.hpp"

namespace {

using namespace trialfit;
using namespace trialfit::stack;

CheckAnswer judged(const job::Job& job) {
    return std::get<CheckAnswer>(check(job, {.all_pairs = true}));
}

bool names_draw_up(const CheckAnswer& answer) {
    return testing::message<DrawUpNotKnown>(answer.not_assessed) != nullptr;
}

}  // namespace

TEST_CASE("every example: tightened, a gap stays or moves by the draw-up, its range with it") {
    int moved = 0;
    int stayed = 0;
    for (const job::Job& job : testing::every_example()) {
        CAPTURE(job.file);
        const CheckAnswer answer = judged(job);
        if (answer.states.empty() || !answer.states.back().drawn_home) continue;
        const StateTold::DrawnHome& by = *answer.states.back().drawn_home;
        CHECK(by.worst.lo > 0.0);
        for (const Clearance& pair : answer.clearances) {
            const auto of = [&](const char* state) {
                return std::find_if(pair.in_states.begin(), pair.in_states.end(),
                                    [&](const InState& each) { return each.state == state; })
                    ->value;
            };
            const Bounds rest = of(kAsMeasured);
            const Bounds tight = of(kTightened);
            const double way = tight.nominal - rest.nominal;
            const bool moves = std::abs(way) > 1e-9;
            ++(moves ? moved : stayed);
            CHECK(std::abs(way) == doctest::Approx(moves ? by.nominal : 0.0));
            const double near = moves ? by.worst.lo : 0.0;
            const double far = moves ? by.worst.hi : 0.0;
            CHECK(tight.worst.lo - rest.worst.lo == doctest::Approx(way < 0.0 ? -far : near));
            CHECK(tight.worst.hi - rest.worst.hi == doctest::Approx(way < 0.0 ? -near : far));
        }
    }
    CHECK(moved > 10);
    CHECK(stayed > 10);
}

TEST_CASE("every example: a draw-up that is not known is named as not assessed") {
    int named = 0;
    for (job::Job job : testing::every_example()) {
        CAPTURE(job.file);
        const bool known = std::any_of(job.parts.begin(), job.parts.end(), [](const auto& part) {
            return part.turns && std::any_of(part.seats.begin(), part.seats.end(), [](auto& seat) {
                       return seat.kind == job::SeatKind::cone_on_cone;
                   });
        });
        if (job.seat) job.seat->nut_torque_nm.reset();
        CHECK(names_draw_up(judged(job)) == known);
        named += known ? 1 : 0;
    }
    CHECK(named > 5);
}
