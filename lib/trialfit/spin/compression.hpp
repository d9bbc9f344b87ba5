// SPDX-License-Identifier: MIT
#pragma once

#include <trialfit/job/job.hpp>
#include <trialfit/spin/answers.hpp>
#include <trialfit/trade/result.hpp>

namespace trialfit::spin {

/// What compression takes, from where the cylinder closes along the true crank-slider volume. The
/// compression ratio is that of the trapped volume. The section must have bore and compression,
/// and the job a `timing`.
///
/// Where the piston stands and at which angle is taken over every combination of the limits of
/// stroke, rod, offset and of the point itself (sampled at the corners and middles, as `timing`
/// does). Work is monotone in all it is made of (trade/engine/compression.hpp, proven there); the
/// closing drop and the firing drop are taken as independent, so that its range encloses every
/// engine within the limits and may be a little wider. A firing point before it closes
/// has nothing to get over. A reason where sizes make no engine.
[[nodiscard]] trade::Result<Compression> compression(const job::Job& job);

}  // namespace trialfit::spin
