// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <string_view>
#include <trialfit/job/job.hpp>
#include <variant>
#include <vector>

// The sizes of a job by name, see Study::with.
namespace trialfit::study {

/// In the order of the file: parts, then readings.
[[nodiscard]] std::vector<std::string> size_names(const job::Job& job);

/// The job with another size. Complaints, without a place, where no size has that name, where more
/// than one has, and where `size` cannot be read. `job` must be valid.
[[nodiscard]] std::variant<job::Job, job::Complaints> with_size(const job::Job& job,
                                                                std::string_view what,
                                                                std::string_view size);

}  // namespace trialfit::study
