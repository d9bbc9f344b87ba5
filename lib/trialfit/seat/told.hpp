// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <trialfit/seat/findings.hpp>
#include <vector>

// What goes with the figures of `seat`: where they come from, and what is not in them.
namespace trialfit::seat {

/// What the answer is reckoned from, with where each figure comes from.
[[nodiscard]] std::vector<Input> inputs(const job::Job& job, const Joint& joint,
                                        const Tightening& tightening, const Turning& turning,
                                        const Needed& needed);

/// What was asked and cannot be judged, and why, one sentence without a full stop each; empty where
/// all is.
[[nodiscard]] std::vector<std::string> not_judged(const job::Job& job, const Joint& joint,
                                                  const Turning& turning, const Needed& needed,
                                                  bool draw_up_known);

[[nodiscard]] std::vector<std::string> notes(const job::Job& job, const Joint& joint,
                                             const Tightening& tightening, const Turning& turning,
                                             bool readings_bind);
/// What nobody looks at here, whatever the job says.
[[nodiscard]] std::vector<std::string> not_assessed();

}  // namespace trialfit::seat
