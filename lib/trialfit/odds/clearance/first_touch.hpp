// SPDX-License-Identifier: MIT
#pragma once

#include <cstdint>
#include <trialfit/numerics/random/sampler.hpp>
#include <trialfit/odds/answers.hpp>
#include <trialfit/stack/answers.hpp>
#include <trialfit/stack/model/model.hpp>
#include <vector>

namespace trialfit::odds {

struct FirstTouch {
    std::vector<TouchesFirst> pairs;  ///< likeliest first; those never seen are left out
    double nothing = 1.0;
    std::uint64_t samples = 0;
    std::size_t left_out = 0;  ///< pairs that may touch and, being very many, were not drawn
};

/// Which pair of faces each part that can stand proud rests on, by sampling: in each sample the
/// pair with the most negative gap over all pairs. Pairs that clear for certain are not sampled; of
/// more than some hundreds only the deepest are.
[[nodiscard]] FirstTouch first_touch(const stack::Model& model,
                                     const std::vector<stack::Clearance>& pairs,
                                     const numerics::Sampling& sampling);

}  // namespace trialfit::odds
