// SPDX-License-Identifier: MIT
#pragma once

#include <trialfit/numerics/planner/search.hpp>
#include <trialfit/numerics/planner/solve.hpp>

namespace trialfit::numerics {

/// Why a problem proven to have no plan has none: members found by leaving out one limit after the
/// other (the deletion filter of J. W. Chinneck, Feasibility and Infeasibility in Optimization,
/// 2008, ch. 6), each time by a whole search; then the least by which one of them must give.
[[nodiscard]] Conflict explain(const Problem& problem, Deadline& clock);

}  // namespace trialfit::numerics
