// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <trialfit/job/complaint.hpp>
#include <vector>

namespace trialfit::paper {

/// A complaint and what it is about: a file as it was named, or "trialfit" for the command line.
struct FaultTold {
    std::string file;
    job::Complaint complaint;
};

/// Faults for a program, in their order; validates against schemas/faults.schema.json.
[[nodiscard]] std::string faults_json(const std::vector<FaultTold>& faults);

}  // namespace trialfit::paper
