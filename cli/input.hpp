// SPDX-License-Identifier: MIT
#pragma once

#include <optional>
#include <string>
#include <trialfit/job/complaint.hpp>
#include <trialfit/job/job.hpp>

namespace trialfit::cli {

/// A job and the text it was read from, which complaints about it quote.
struct Loaded {
    job::Job job;
    std::string text;
};

/// Reads the job file `name` ("-": standard input). Complaints and warnings go to standard error;
/// nothing comes back where there is no job. Never reads on past the longest job file, so that an
/// endless device is refused as any other.
[[nodiscard]] std::optional<Loaded> load(const std::string& name);

/// Puts complaints about a loaded job on standard error; returns kWrong.
int complain(const job::Complaints& complaints, const Loaded& about);

}  // namespace trialfit::cli
