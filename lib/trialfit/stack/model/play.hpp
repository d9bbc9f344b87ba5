// SPDX-License-Identifier: MIT
#pragma once

#include <trialfit/job/part.hpp>
#include <trialfit/stack/answers.hpp>

namespace trialfit::stack {

/// How far a part may move from the place that its offset states, as shares of its play. On a face
/// it floats off the contact, outboard only.
[[nodiscard]] inline Range play_ends(const job::Seat& seat) {
    if (seat.kind == job::SeatKind::face_on_face) return {.lo = 0.0, .hi = 1.0};
    switch (seat.pushed) {
        case job::Pushed::in:
            return {.lo = 0.0, .hi = 1.0};
        case job::Pushed::out:
            return {.lo = -1.0, .hi = 0.0};
        case job::Pushed::not_stated:
            break;
    }
    return {.lo = -0.5, .hi = 0.5};
}

}  // namespace trialfit::stack
