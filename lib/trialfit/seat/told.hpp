// SPDX-License-Identifier: MIT
#pragma once

#include <trialfit/seat/findings.hpp>
#include <vector>

// What goes with the figures of `seat`: where they come from, and what is not in them.
namespace trialfit::seat {

/// What the answer is reckoned from, with where each figure comes from.
[[nodiscard]] std::vector<Input> inputs(const job::Job& job, const Joint& joint,
                                        const Tightening& tightening, const TurningHub& turning,
                                        const TorqueNeeded& needed);

/// What was asked and cannot be judged, and why; empty where all is.
[[nodiscard]] std::vector<NotJudged> not_judged(const job::Job& job, const Joint& joint,
                                                const TurningHub& turning,
                                                const TorqueNeeded& needed, bool draw_up_known);

/// What the answer rests on and its figures do not show.
[[nodiscard]] std::vector<Note> notes(const job::Job& job, const Joint& joint,
                                      const Tightening& tightening, const TurningHub& turning,
                                      bool readings_bind);
/// What nobody looks at here, whatever the job says.
[[nodiscard]] std::vector<NotAssessed> not_assessed();

}  // namespace trialfit::seat
