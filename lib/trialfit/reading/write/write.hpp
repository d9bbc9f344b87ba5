// SPDX-License-Identifier: MIT
#pragma once

#include <optional>
#include <string>
#include <trialfit/job/complaint.hpp>
#include <trialfit/job/job.hpp>

namespace trialfit::reading {

/// The text of a job, or why it cannot be written.
struct WrittenJob {
    std::optional<std::string> text;
    /// Without places, since the job has no text yet; warnings about the text come with it.
    job::Complaints complaints;
};

/// The job as a file of the format (YAML 1.2, UTF-8), which read_job() reads to the same answers.
/// Sizes keep the words that they were written in where these still say the same; a size without
/// such words is written in figures that read back to the last bit, save that a limit told by a
/// deviation from its nominal, or a mean of repeated readings, may differ in its last place.
/// Comments and layout of a file that the job was read from are not in the job (edit.hpp keeps
/// them). Complaints where the job is none (job::validate), where its record is in force already
/// (it is written as it was read), and for what the format has no words for. Never throws for any
/// job.
[[nodiscard]] WrittenJob write(const job::Job& job);

}  // namespace trialfit::reading
