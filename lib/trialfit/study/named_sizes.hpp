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

/// A size by name, or the shims of a seat.
struct SizeWritten {
    std::string name;
    std::string written;                ///< "12.48 by caliper", "0.5 + 0.3", "none"
    std::vector<quantity::Size> sizes;  ///< one, or each shim's
};
/// In the same order.
[[nodiscard]] std::vector<SizeWritten> sizes_written(const job::Job& job);

/// The job with another size. Complaints, without a place, where no size has that name, where more
/// than one has, and where `size` cannot be read. `job` must be valid.
[[nodiscard]] std::variant<job::Job, job::Complaints> with_size(const job::Job& job,
                                                                std::string_view what,
                                                                std::string_view size);

/// The job with one more entry in its record, see Study::cut; `by_amount`: `size` is what came off.
/// A bare size is good to what the cut holds.
[[nodiscard]] std::variant<job::Job, job::Complaints> with_cut(const job::Job& job,
                                                               std::string_view face,
                                                               std::string_view size,
                                                               std::string date,
                                                               bool by_amount = false);

/// The job with one more entry in its record: the shims that now lie under a part, "0.5 + 0.3", or
/// "none". Complaints as with_size().
[[nodiscard]] std::variant<job::Job, job::Complaints> with_shims(const job::Job& job,
                                                                 std::string_view part,
                                                                 std::string_view shims,
                                                                 std::string date);

}  // namespace trialfit::study
