// SPDX-License-Identifier: MIT
#pragma once

#include <trialfit/plan/answers.hpp>
#include <trialfit/stack/model/model.hpp>

namespace trialfit::plan {

/// What each trial-fit reading of the model's job should read with every part fitted and on its
/// seat, one for every two faces that were read from; not those that stand on unmeasured sizes.
/// `after`: the model once a plan's work is done; `worst` is of the sizes, without the error of the
/// gauge that will read it.
[[nodiscard]] std::vector<ReadingAfter> readings_after(const stack::Model& after);

}  // namespace trialfit::plan
