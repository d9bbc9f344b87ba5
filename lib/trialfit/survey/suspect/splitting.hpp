// SPDX-License-Identifier: MIT
#pragma once

#include <optional>
#include <trialfit/stack/model/model.hpp>
#include <trialfit/survey/answers.hpp>
#include <vector>

namespace trialfit::survey {

/// The one measurement that leaves the fewest of the suspects at the worst: one of their figures
/// read once more, or the distance between two faces of a part that some of their sizes lie
/// between. Each suspect foretells a value; two that lie within 4 sd of the measurement are told
/// by it no better than before. Nothing where no measurement tells any two apart. `unbound` is the
/// model without the readings.
[[nodiscard]] std::optional<SplitBy> splitting_measurement(const stack::Model& unbound,
                                                           const std::vector<Suspect>& suspects);

}  // namespace trialfit::survey
