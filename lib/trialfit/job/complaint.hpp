// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <vector>

namespace trialfit::job {

/// Where something stands in the job file; lines and columns count from 1, columns in characters.
/// 0 where there is no place to point at (an unreadable file, a job made in memory).
struct Place {
    int line = 0;
    int column = 0;

    [[nodiscard]] bool operator==(const Place&) const = default;
    [[nodiscard]] auto operator<=>(const Place&) const = default;
};

enum class Severity { error, warning };

/// A mend that points to another answer; a program words it by the name that it offers it under.
enum class Remedy {
    none,
    weigh_sizes,     ///< measure these again; the survey weighs sizes that contradict each other
    weigh_readings,  ///< the survey finds the reading or the size that is wrong
    see_position,    ///< mend the cones; the chain behind a gap shows where the hub lies
    see_engagement,  ///< mend the faces that the threads run between; the check shows engagement
    see_plan,        ///< the search for a plan says what stands in its way
};

/// A fault of a job file, as a record: what is wrong, where, and the mend.
struct Complaint {
    Severity severity = Severity::error;
    Place at;
    /// What is wrong, in the user's words, quoting the offending text.
    std::string fault;
    /// What to write instead; printed after the fault and a semicolon. Empty where there is none.
    std::string mend;
    /// In place of `mend`.
    Remedy remedy = Remedy::none;
};

using Complaints = std::vector<Complaint>;

/// Whether any of them is an error (and not only a warning).
[[nodiscard]] bool any_error(const Complaints& complaints);

}  // namespace trialfit::job
