// SPDX-License-Identifier: MIT
#pragma once

#include <trialfit/plan/search/plan.hpp>
#include <trialfit/plan/search/search.hpp>

namespace trialfit::plan {

/// Why a problem proven to have no plan has none: members found by leaving out one limit after the
/// other (the deletion filter of J. W. Chinneck, Feasibility and Infeasibility in Optimization,
/// 2008, ch. 6), each time by a whole search; then the least by which one of them must give.
[[nodiscard]] Conflict explain(const Problem& problem, Clock& clock);

}  // namespace trialfit::plan
