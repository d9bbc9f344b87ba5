// SPDX-License-Identifier: MIT
#pragma once

#include <optional>
#include <string>
#include <trialfit/plan/answers.hpp>
#include <trialfit/sheet/write_back.hpp>
#include <vector>

#include "input.hpp"
#include "output_file.hpp"

namespace trialfit::cli {

/// The job with one more entry in its record: the faces as they came out, each "FACE=SIZE". A size
/// without limits is taken to be within what the lathe holds. Complains where that cannot be.
[[nodiscard]] std::optional<Loaded> with_as_cut(const Loaded& loaded,
                                                const std::vector<std::string>& as_cut);

/// The date of a new entry of the record: today, but none before the last.
[[nodiscard]] std::string next_day(const job::Job& job);

/// Writes the job with the plan as a planned entry of its record; all else in the text stays as it
/// is. The text is read back and judged first, and refused where it does not hold. Returns an exit
/// code.
[[nodiscard]] int write_plan(const Loaded& loaded, const plan::PlanMade& plan, const Target& to,
                             const TrialFitOptions& judging);

}  // namespace trialfit::cli
