// SPDX-License-Identifier: MIT
#pragma once

#include <trialfit/timing/answers.hpp>
#include <trialfit/timing/engine.hpp>

namespace trialfit::timing {

/// What the slot allows to both sides and, where it is known when the engine fires and when it
/// should (else null), whether that reaches. The stator turns with the crank, degree for degree.
[[nodiscard]] SlotTravel slot_travel(const Engine& engine, const job::Slot& slot,
                                     const Firing* firing, const FiresNow* now);

}  // namespace trialfit::timing
