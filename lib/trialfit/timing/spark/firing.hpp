// SPDX-License-Identifier: MIT
#pragma once

#include <trialfit/timing/answers.hpp>
#include <trialfit/timing/engine.hpp>

namespace trialfit::timing {

/// The firing point that is asked for, as the gauge sets it. The worst case is that of
/// trade::timing_at_reading; the limits written with it do not enter, they are what it is held to.
[[nodiscard]] trade::Result<Firing> firing(const Engine& of_section,
                                           const job::AngleGiven& fire_at);

/// Where it fires now. A gauge's reading brings in the engine's sizes and the tilt; a piston height
/// the engine's sizes; an angle nothing but its own limits.
[[nodiscard]] trade::Result<FiresNow> fires_now(const Engine& engine, const job::AngleGiven& given);

}  // namespace trialfit::timing
