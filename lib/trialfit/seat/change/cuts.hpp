// SPDX-License-Identifier: MIT
#pragma once

#include <trialfit/seat/findings.hpp>
#include <trialfit/stack/model/model.hpp>
#include <vector>

namespace trialfit::seat {

/// What each cut that the job allows would cost the seat if it were taken to its `keep`, every
/// figure that changes; cuts that change none are left out.
[[nodiscard]] std::vector<CutCost> cut_costs(const stack::Model& model, const Joint& joint,
                                             const Tightening& tightening,
                                             const TorqueNeeded& needed, const TurningHub& turning);

}  // namespace trialfit::seat
