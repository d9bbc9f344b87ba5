// SPDX-License-Identifier: MIT
#pragma once

#include <trialfit/plan/demand/demands.hpp>

namespace trialfit::plan {

/// What there is to decide in a job: its works and its seats for shims, and notes on what is left
/// out. No demands yet.
[[nodiscard]] Demands decided(const stack::Model& model);

}  // namespace trialfit::plan
