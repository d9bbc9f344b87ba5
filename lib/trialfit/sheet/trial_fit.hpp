// SPDX-License-Identifier: MIT
#pragma once

#include <cstddef>
#include <optional>
#include <trialfit/job/job.hpp>
#include <trialfit/stack/check/check.hpp>
#include <variant>

// The job as the program judges it, in one call.
namespace trialfit {

struct TrialFitOptions {
    /// How it is judged; its `readings` are found anew and need not be set.
    stack::Options stack;
    /// Judges by the odds instead: the least chance that counts as holding, between 0 and 1.
    std::optional<double> odds_level;
    /// Sets the trial-fit readings aside: the sizes as written.
    bool as_written = false;
    /// How many entries of the record are in force; all of them unless said.
    std::optional<std::size_t> entries;
};

/// Trial-fits a job as it was read (reading::read_job): its record is carried out and its readings
/// bind its sizes, as `trialfit check` does. Lengths of the answer in the job's unit. Complaints
/// where an entry of the record cannot be carried out, and where sizes and readings contradict each
/// other; never a partial answer. (stack::check judges the job that it is given, by the readings
/// that its options hold: neither record nor readings are looked at there.)
[[nodiscard]] std::variant<stack::CheckAnswer, job::Complaints> trial_fit(
    const job::Job& job, const TrialFitOptions& options = {});

}  // namespace trialfit
