// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <trialfit/job/job.hpp>
#include <trialfit/stack/answers.hpp>
#include <trialfit/stack/model.hpp>
#include <vector>

// The job in each of its states: part materials and temperatures scale each part's sizes
// by 1 + alpha (T - 20 C). Sizes are as measured at 20 C (ISO 1: the reference temperature of
// dimensions).
namespace trialfit::stack {

inline constexpr double kMeasuredAt_c = 20.0;
/// The name of the state in which the sizes were measured, where the job gives none at 20 C.
inline constexpr const char* kAsMeasured = "as measured";

/// The states that a job is looked at in: its own, and first of all the state as measured unless
/// one of them has every part at 20 C. Empty where the job gives none.
[[nodiscard]] std::vector<job::State> states_of(const job::Job& job);

/// The same for an answer, with the parts' names.
[[nodiscard]] std::vector<StateTold> states_told(const job::Job& job);

/// The model in each of states_of(), in that order; the model alone where the job has none.
[[nodiscard]] std::vector<Model> in_states(Model cold);

/// What is assumed of heat, and what is not assessed of it; "heat" as a whole where the job gives
/// no states.
[[nodiscard]] std::vector<std::string> heat_notes(const job::Job& job);
[[nodiscard]] std::vector<std::string> heat_not_assessed(const job::Job& job);

}  // namespace trialfit::stack
