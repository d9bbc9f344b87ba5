// SPDX-License-Identifier: MIT
#pragma once

#include <trialfit/plan/answers.hpp>
#include <vector>

namespace trialfit::plan {

/// The cuts with the costliest last: it is only cut once the others are right.
[[nodiscard]] std::vector<CutMade> in_order_of_work(const PlanMade& plan);

}  // namespace trialfit::plan
