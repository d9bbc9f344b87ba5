// SPDX-License-Identifier: MIT
#pragma once

#include <cstdint>
#include <span>
#include <trialfit/numerics/random/sampler.hpp>
#include <trialfit/odds/clearance/asked.hpp>
#include <trialfit/odds/sampling/rows.hpp>
#include <vector>

namespace trialfit::odds {

struct Chance {
    numerics::Probability holds{.value = 1.0, .lower = 1.0, .upper = 1.0};
    double fails = 0.0;
    std::uint64_t samples = 0;
};

/// A gap that leans, with what its vectors in their worst directions would make of it.
struct LeaningDemand {
    Leaning leaning;
    std::vector<LimitedForm> at_worst;
};

/// The chance that all demands are met: exact for one that is linear, sampled with exact controls
/// for more. `spreads` has taken in all that they hang on, vectors included.
[[nodiscard]] Chance chance_of(const std::vector<LimitedForm>& demands,
                               const std::vector<LeaningDemand>& leaning, const Spreads& spreads,
                               const numerics::Sampler& sampler,
                               const numerics::Sampling& sampling);

}  // namespace trialfit::odds
