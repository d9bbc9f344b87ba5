// SPDX-License-Identifier: MIT
#pragma once

#include <trialfit/stack/check/requirements.hpp>
#include <trialfit/stack/messages.hpp>
#include <trialfit/stack/model/model.hpp>

// Values that stand on sizes which nobody has measured and no reading fixes.
namespace trialfit::stack {

/// What would fix a form that the model leaves open (Unmeasured::open).
[[nodiscard]] LeftOpen left_open_for(const Model& model, const Form& open);
/// The same of a question whose value is open: of its first open difference.
[[nodiscard]] LeftOpen left_open_for(const Model& model, const Question& question);

}  // namespace trialfit::stack
