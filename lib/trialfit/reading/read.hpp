// SPDX-License-Identifier: MIT
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <trialfit/job/complaint.hpp>
#include <trialfit/job/job.hpp>

namespace trialfit::reading {

/// Largest job file that is read, bytes; a longer one is refused unread.
inline constexpr std::size_t kLargestFile = 4U << 20U;

/// A job, or every fault that keeps the text from being one. Warnings come with a job, too.
struct Outcome {
    std::optional<job::Job> job;
    job::Complaints complaints;  ///< in the order of their places
};

/// Reads the text of a job file (YAML 1.2, UTF-8, with or without byte order mark, any line ends).
/// `file` is the name for messages. Never throws for any text. All faults of the text come back in
/// one go; references are resolved; lengths are converted to the file's unit.
[[nodiscard]] Outcome read_job(std::string_view text, std::string file);

/// Reads one written size ("12.5 ±0.05", "25 h7", "12.48 by caliper") outside any file, lengths in
/// `units`. `general_tolerance` and `gauges` as the job's. The complaint has no place.
struct SizeOutcome {
    std::optional<quantity::Size> size;
    std::string fault;
    std::string mend;
};
[[nodiscard]] SizeOutcome read_size(std::string_view written, const job::Job& context);

}  // namespace trialfit::reading
