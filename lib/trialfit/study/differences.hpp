// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <trialfit/job/job.hpp>
#include <vector>

namespace trialfit::study {

/// A size that is not the same in all of several jobs.
struct Difference {
    std::string name;  ///< as Study::sizes() has it
    /// Of each job, as it writes the size, with the unit where the jobs have not all the same;
    /// "none" of a seat without shims; empty where the job has no such size.
    std::vector<std::string> written;
};

/// In the order in which the first job that has a size names it. Sizes are the same where their
/// nominal and limits are, in millimetres.
[[nodiscard]] std::vector<Difference> differences(const std::vector<const job::Job*>& jobs);

}  // namespace trialfit::study
