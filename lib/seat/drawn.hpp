// SPDX-License-Identifier: MIT
#pragma once

#include <trialfit/seat/answers.hpp>
#include <trialfit/stack/model.hpp>
#include <vector>

namespace trialfit::seat {

/// Whether the hub reaches its cone, and what each clearance and check of the job becomes when the
/// nut draws it up: the whole stack worked again with the hub moved in. Only what changes is
/// listed.
struct Drawn {
    Seated seated;
    std::vector<Moved> moved;
};
/// `draw_up` in the file's unit, all >= 0.
[[nodiscard]] Drawn drawn(const stack::Model& model, int hub, const Estimate& draw_up);

}  // namespace trialfit::seat
