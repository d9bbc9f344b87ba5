// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <string_view>
#include <trialfit/job/complaint.hpp>
#include <trialfit/plan/answers.hpp>
#include <trialfit/reading/edit/edit.hpp>
#include <trialfit/sheet/trial_fit.hpp>
#include <variant>

// What is put back into a job's text, and what it then says.
namespace trialfit::sheet {

/// A plan as an entry of the record: planned, not done. Sizes are the plan's own finish sizes, as
/// they are told, with what the lathe holds.
[[nodiscard]] reading::RecordedEntry planned_entry(const plan::PlanMade& plan,
                                                   const std::string& date);

/// Reads a job's text and trial-fits it. Complaints where it is no job, or
/// where its sizes and readings contradict each other.
[[nodiscard]] std::variant<stack::CheckAnswer, job::Complaints> judged(std::string_view text,
                                                                       const std::string& file,
                                                                       const TrialFitOptions& how);

/// Whether every clearance, radial gap and check of an answer holds, whatever its warnings.
[[nodiscard]] bool findings_hold(const stack::CheckAnswer& answer);

}  // namespace trialfit::sheet
