// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <trialfit/job/job.hpp>
#include <trialfit/trade/engine/timing_point.hpp>

namespace trialfit::timing {

/// The engine of a job's `timing` section, as the rest of this room works on it. Lengths stay in
/// the file's unit: nothing here depends on which it is.
struct Engine {
    const job::Timing& timing;
    const std::vector<job::Gauge>& gauges;
    trade::EngineSizes sizes;
    trade::Crank crank;  ///< at the sizes' nominals
    quantity::Unit units = quantity::Unit::mm;
    std::string gauge;  ///< empty where the section names none
    double gauge_half_width = 0.0;
};
/// A reason where the nominal sizes make no engine. `job` must outlive the answer.
[[nodiscard]] trade::Result<Engine> engine_of(const job::Job& job, const job::Timing& timing);

/// The same engine with the gauge that read `given`, where one did.
[[nodiscard]] Engine read_by(Engine engine, const job::Given& given);

/// Least and greatest cosine of the tilt's limits.
struct Cosines {
    double least = 1.0;
    double greatest = 1.0;
};
[[nodiscard]] Cosines cosines_of_tilt(const Engine& engine);

}  // namespace trialfit::timing
