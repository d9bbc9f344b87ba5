// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <trialfit/timing/answers.hpp>

namespace trialfit::paper {

/// Indented JSON, ended by a line end; validates against schemas/timing.schema.json. Lengths in the
/// file's unit, angles in degrees of crank, in full double precision.
[[nodiscard]] std::string timing_json(const timing::TimingAnswer& answer);

}  // namespace trialfit::paper
