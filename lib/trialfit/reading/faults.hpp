// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <trialfit/job/complaint.hpp>

namespace trialfit::reading {

/// Thrown within the reading room where a file has so many faults that reading on helps nobody.
struct TooManyFaults {};

/// Collects the complaints about one file.
class Faults {
public:
    void error(job::Place at, std::string fault, std::string mend);
    void warning(job::Place at, std::string fault, std::string mend);
    /// Hands the complaints over in the order of their places, the first hundred of them.
    [[nodiscard]] job::Complaints finish();

private:
    void add(job::Complaint complaint);

    job::Complaints complaints_;
};

}  // namespace trialfit::reading
