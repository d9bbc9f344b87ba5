// SPDX-License-Identifier: MIT
// Every size of a job that stacks, visited in one place, so that a law can change them all.
#pragma once

#include <trialfit/job/job.hpp>

namespace trialfit::testing {

/// What kind of length is visited: a position along the axis (its sign turns when the axis is
/// mirrored) or a length without a direction.
enum class Along { axis, nowhere };

template <typename Visit>
void for_each_given(job::Job& job, Visit visit) {
    for (job::Part& part : job.parts) {
        for (job::Face& face : part.faces) {
            for (job::Dimension& dimension : face.dimensions)
                visit(dimension.distance, Along::axis);
        }
        for (job::Ring& ring : part.rings) {
            visit(ring.bore, Along::nowhere);
            visit(ring.outside, Along::nowhere);
        }
        for (job::Cone& cone : part.cones) {
            visit(cone.dia, Along::nowhere);
            visit(cone.length, Along::nowhere);
        }
        for (job::Thread& thread : part.threads) {
            visit(thread.lead_in, Along::nowhere);
            visit(thread.run_out, Along::nowhere);
        }
        for (job::Seat& seat : part.seats) {
            if (seat.offset) visit(*seat.offset, Along::axis);
            if (seat.play) visit(*seat.play, Along::nowhere);
            if (seat.shims) {
                for (job::Given& shim : seat.shims->fitted)
                    visit(shim, Along::axis);
            }
            if (seat.key) {
                visit(seat.key->height, Along::nowhere);
                visit(seat.key->room, Along::nowhere);
            }
        }
    }
}

}  // namespace trialfit::testing
