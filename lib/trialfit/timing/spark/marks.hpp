// SPDX-License-Identifier: MIT
#pragma once

#include <trialfit/timing/answers.hpp>
#include <trialfit/timing/engine.hpp>

namespace trialfit::timing {

/// Offsets of marks on the rotor's rim and on the stator, and the found marks held to the firing
/// point (null where none is asked for). A mark fits where its limits meet those of the firing
/// point: the written ones, else what the gauge can tell. `turn_deg`: what the stator must turn.
[[nodiscard]] Marks marks(const Engine& engine, const Firing* firing,
                          std::optional<double> turn_deg);

}  // namespace trialfit::timing
