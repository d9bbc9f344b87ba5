// SPDX-License-Identifier: MIT
#pragma once

#include <optional>
#include <string>
#include <trialfit/plan/answers.hpp>
#include <trialfit/sheet/write_back.hpp>
#include <vector>

#include "files/input.hpp"
#include "files/output_file.hpp"

namespace trialfit::cli {

/// Writes the job with the plan as a planned entry of its record; all else in the text stays as it
/// is. The text is read back and judged first, and refused where it does not hold. Returns an exit
/// code.
[[nodiscard]] int write_plan(const Loaded& loaded, const plan::PlanMade& plan, const Target& to,
                             const TrialFitOptions& judging);

}  // namespace trialfit::cli
