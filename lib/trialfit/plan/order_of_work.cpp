// SPDX-License-Identifier: MIT
#include <algorithm>
#include <trialfit/plan/order_of_work.hpp>

namespace trialfit::plan {

std::vector<CutMade> in_order_of_work(const PlanMade& plan) {
    std::vector<CutMade> cuts = plan.cuts;
    std::stable_sort(cuts.begin(), cuts.end(),
                     [](const CutMade& a, const CutMade& b) { return a.cost < b.cost; });
    return cuts;
}

}  // namespace trialfit::plan
