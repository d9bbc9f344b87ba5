// SPDX-License-Identifier: MIT
#pragma once

#include <trialfit/job/validity/warnings.hpp>
#include <vector>

namespace trialfit::job {

/// What a job says without fault and hardly means, since its answer would look right and be about
/// another thing; for the head of every answer. Of a sound job (see validate). Empty where nothing
/// is doubtful. A pair of parts is named once.
[[nodiscard]] std::vector<Doubt> doubts(const Job& job);

}  // namespace trialfit::job
