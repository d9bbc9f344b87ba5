// SPDX-License-Identifier: MIT
#pragma once

#include <trialfit/job/job.hpp>
#include <trialfit/spin/answers.hpp>
#include <trialfit/stack/check/check.hpp>
#include <variant>

namespace trialfit::spin {

/// Answers the job's `spin` section, with the parts as `options` binds them: what turns and how
/// hard it is to spin up, what compression takes, and what is left at the spark. Complaints where
/// the job has no such section, its sizes contradict each other, or its figures make no engine.
[[nodiscard]] std::variant<SpinAnswer, job::Complaints> spin(const job::Job& job,
                                                             const stack::Options& options);

}  // namespace trialfit::spin
