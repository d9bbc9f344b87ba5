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

/// A fault of a job file, as a record: what is wrong, where, and the mend.
struct Complaint {
    Severity severity = Severity::error;
    Place at;
    /// What is wrong, in the user's words, quoting the offending text.
    std::string fault;
    /// What to write instead; printed after the fault and a semicolon. Empty where there is none.
    std::string mend;
};

using Complaints = std::vector<Complaint>;

/// Whether any of them is an error (and not only a warning).
[[nodiscard]] bool any_error(const Complaints& complaints);

}  // namespace trialfit::job
