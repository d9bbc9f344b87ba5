// SPDX-License-Identifier: MIT
#pragma once

#include <trialfit/timing/answers.hpp>
#include <trialfit/timing/engine.hpp>

namespace trialfit::timing {

/// The top from the section's stop readings (trade::top_by_stops); the stop's half-width is its
/// own, else the gauge's, else 0.
[[nodiscard]] trade::Result<FoundTop> top_by_stops(const Engine& engine,
                                                   const job::StopReadings& stops);

/// The top from a dwell: it lies between the two readings, so its half-width is half their distance
/// and that of the wheel. Taken as evenly spread there.
[[nodiscard]] trade::Result<FoundTop> top_by_dwell(const Engine& engine,
                                                   const job::DwellReadings& dwell);

/// What a gauge alone can tell of the top (trade::top_by_dwell), through the tilted plug hole.
[[nodiscard]] trade::Result<std::vector<GaugeDwell>> gauge_dwells(const Engine& engine);

}  // namespace trialfit::timing
