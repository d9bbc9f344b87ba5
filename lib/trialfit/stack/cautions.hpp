// SPDX-License-Identifier: MIT
#pragma once

#include <trialfit/job/job.hpp>
#include <trialfit/stack/answers.hpp>
#include <vector>

namespace trialfit::stack {

/// The cautions that this job calls for and no others, in the order of Caution, each once. They
/// follow from what the job holds (seats, cuts, record, sections), never from a name. Where a job
/// leaves open whether a thing is there, its caution is given.
[[nodiscard]] std::vector<Caution> cautions(const job::Job& job);

}  // namespace trialfit::stack
