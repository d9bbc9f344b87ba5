// SPDX-License-Identifier: MIT
#pragma once

#include <trialfit/match/answers.hpp>

namespace trialfit::match {

/// What the plan costs that a candidate fits by; 0 where it needs none.
[[nodiscard]] double cost_of(const Candidate& candidate);

/// Whether what holds is nothing at all: no two rings can meet and no check is asked. Such a
/// candidate is not judged.
[[nodiscard]] bool nothing_judged(const stack::CheckAnswer& answer);

/// Whether one candidate is to be told before another: by how it stands, then what its plan costs,
/// its price (those without one last), its odds (likewise). Equal ones keep their order.
[[nodiscard]] bool before(const Candidate& one, const Candidate& other);

}  // namespace trialfit::match
