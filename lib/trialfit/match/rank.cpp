// SPDX-License-Identifier: MIT
#include <limits>
#include <trialfit/match/rank.hpp>
#include <tuple>

namespace trialfit::match {

double cost_of(const Candidate& candidate) {
    const bool by_plan = candidate.standing == Standing::after_plan && candidate.plan;
    return by_plan ? candidate.plan->plans.front().cost : 0.0;
}

bool nothing_judged(const stack::CheckAnswer& answer) {
    return answer.verdict == stack::Verdict::holds && answer.clearances.empty() &&
           answer.checks.empty() && answer.radial.empty();
}

bool before(const Candidate& one, const Candidate& other) {
    const auto rank = [](const Candidate& each) {
        return std::tuple(each.standing, cost_of(each),
                          each.price.value_or(std::numeric_limits<double>::infinity()),
                          -each.odds.value_or(-1.0));
    };
    return rank(one) < rank(other);
}

}  // namespace trialfit::match
