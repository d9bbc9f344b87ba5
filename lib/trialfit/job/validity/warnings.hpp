// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <trialfit/job/job.hpp>
#include <vector>

// What stands before every answer about a job.
namespace trialfit::job {

/// Less metal left than the job says must remain: a face, a ring or a cone that was cut, skimmed or
/// lapped too far, or that may have been.
struct LimitPassed {
    enum class Kind { keep, wall, until_bore, until_outside, lap };
    Kind kind = Kind::keep;
    std::string what;    ///< "plate.front"
    double is = 0.0;     ///< nominal: of a lap, by how much its at_most was passed
    double worst = 0.0;  ///< at its bad limit
    double limit = 0.0;  ///< what the job asks for; 0 for a lap
    /// Passed at nominal; else only at the bad limit, of metal that was worked on.
    bool surely = false;
};

/// Of the job as it stands, after stack::as_built. Lengths in the file's unit. Metal that nobody
/// has worked on is taken at nominal.
[[nodiscard]] std::vector<LimitPassed> limits_passed(const Job& job);

/// What all planned work in force is: "PLANNED, NOT CUT YET: plate.front to 5.53 ±0.03." and
/// whether what is said after it takes that work as done, or is of the parts as they are
/// (`set_aside`). Empty where there is none.
[[nodiscard]] std::string planned_warning(const Job& job, bool set_aside);

/// planned_warning, then one sentence for each limit passed; for the answers' `warnings`.
[[nodiscard]] std::vector<std::string> warnings(const Job& job);

}  // namespace trialfit::job
