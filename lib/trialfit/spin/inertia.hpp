// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <trialfit/spin/answers.hpp>
#include <trialfit/stack/model/model.hpp>
#include <vector>

namespace trialfit::spin {

/// What turns with the crank. A turning part that sits on no other turning part is the shaft
/// itself: its inertia is in `crank_inertia`.
struct WhatTurns {
    Inertia inertia;
    std::vector<std::string> shafts;
    std::vector<stack::NotCounted> not_counted;
    /// The ring of the greatest outside diameter, and that diameter, mm.
    std::string widest;
    Estimate widest_mm;
};

/// Ranges enclose all bodies within the limits (stack::body_of); sums of independent parts are
/// exact.
[[nodiscard]] WhatTurns what_turns(const stack::Model& model);

}  // namespace trialfit::spin
