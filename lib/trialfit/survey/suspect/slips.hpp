// SPDX-License-Identifier: MIT
#pragma once

#include <optional>
#include <trialfit/quantity/units.hpp>
#include <trialfit/survey/answers.hpp>

namespace trialfit::survey {

/// The usual slip that a suspect's error looks like (its `off_by` and `should_be`, in `unit`):
/// `is` its figure, `sd` how well its error is known. Nothing where it looks like none.
[[nodiscard]] std::optional<Slip> slip_of(const Suspect& suspect, double is, double sd,
                                          quantity::Unit unit);

}  // namespace trialfit::survey
