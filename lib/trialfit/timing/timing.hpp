// SPDX-License-Identifier: MIT
#pragma once

#include <trialfit/job/job.hpp>
#include <trialfit/timing/answers.hpp>
#include <variant>

namespace trialfit::timing {

/// Answers the job's `timing` section. Crank, rod and piston exactly
/// (trade/engine/crank_slider.hpp); the worst case of a firing point over every combination of its
/// sizes' limits, its RSS from each size's own effect (trade/engine/timing_point.hpp). A slot is
/// judged in the worst case: the turn that is needed at most against the room that is there at
/// least. Complaints, with their places, where the job has no such section or a figure of it has no
/// answer.
[[nodiscard]] std::variant<TimingAnswer, job::Complaints> timing(const job::Job& job);

}  // namespace trialfit::timing
