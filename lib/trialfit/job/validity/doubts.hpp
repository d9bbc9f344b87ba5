// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <trialfit/job/job.hpp>
#include <vector>

namespace trialfit::job {

/// What a job says without fault and hardly means, since its answer would look right and be about
/// another thing: one sentence each, "WARNING: ...", for the head of every answer. Of a sound job
/// (see validate). Looked for: a gap named outboard face first, by the order in which the parts go
/// on; one of two parts that share a cone or a thread turns and the other does not; an air gap by a
/// part of whose axis nothing is said; sizes that are far too large or too small for the threads,
/// or for a shop, as with the wrong unit.
[[nodiscard]] std::vector<std::string> doubts(const Job& job);

}  // namespace trialfit::job
