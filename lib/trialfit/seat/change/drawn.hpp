// SPDX-License-Identifier: MIT
#pragma once

#include <trialfit/seat/answers.hpp>
#include <trialfit/stack/check/check.hpp>
#include <vector>

namespace trialfit::seat {

/// Whether the hub reaches its cone, and what each clearance and check of the job becomes when the
/// nut draws it up. What they are before is what stack::check says with the same options (readings
/// and all); what the draw-up does to each is found by working the stack again with the hub moved
/// in. Only what changes is listed.
struct Drawn {
    Seated seated;
    std::vector<Moved> moved;
};
/// `draw_up` in the file's unit, all >= 0; all 0 where it is not known. The job is one that
/// stack::check answers with these options.
[[nodiscard]] Drawn drawn(const job::Job& job, const stack::Options& options, job::PartId hub,
                          const Estimate& draw_up);

}  // namespace trialfit::seat
