// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <trialfit/job/job.hpp>
#include <variant>
#include <vector>

namespace trialfit::study {

/// One "what if". `what`: a face ("plate.front": its distance from the face that its cut is
/// measured from, else from the one that it is dimensioned from), a seat's shims ("stator.shims"),
/// or any other size by the name that Study::with knows. `size` in any form of the format; bare, it
/// keeps the limits that the size had (of a cut face: what the lathe holds).
struct Supposition {
    std::string what;
    std::string size;
    /// `size` is what comes off the face `what`.
    bool by_amount = false;
};

/// The job as if: work on a face or a seat becomes entries of its record, of the day `date`, that
/// nobody wrote; any other size is as if measured so. Job::supposed says all of it in words.
/// Complaints, without a place, where a name or a size is wrong, where one thing is supposed twice,
/// and where metal would grow. `job` must be valid and not carried out yet.
[[nodiscard]] std::variant<job::Job, job::Complaints> suppose(const job::Job& job,
                                                              const std::vector<Supposition>& all,
                                                              const std::string& date);

}  // namespace trialfit::study
