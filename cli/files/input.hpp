// SPDX-License-Identifier: MIT
#pragma once

#include <optional>
#include <string>
#include <trialfit/job/complaint.hpp>
#include <trialfit/job/job.hpp>

#include "what_if.hpp"

namespace trialfit::cli {

/// A job in its present state (stack::as_built) and the text it was read from, which complaints
/// about it quote.
struct Loaded {
    job::Job job;
    std::string text;
};

/// Reads the job file `name` ("-": standard input). Complaints and warnings go to standard error;
/// nothing comes back where there is no job. Never reads on past the longest job file, so that an
/// endless device is refused as any other.
/// `as_of`: how many entries of the job's record are in force, or the day up to which they are; all
/// of them where it is empty. `what_if`: what is supposed of the parts as they then are.
[[nodiscard]] std::optional<Loaded> load(const std::string& name, const std::string& as_of = "",
                                         const WhatIfGiven& what_if = {});

/// The text of a file ("-": standard input), or one byte more than the longest job file has of a
/// longer one; told on standard error, and nothing, where it cannot be read.
[[nodiscard]] std::optional<std::string> text_of_file(const std::string& name);

/// The date of a new entry of the record: today, but none before the last.
[[nodiscard]] std::string next_day(const job::Job& job);

/// Puts complaints about a loaded job on standard error; returns kWrong.
int complain(const job::Complaints& complaints, const Loaded& about);

}  // namespace trialfit::cli
