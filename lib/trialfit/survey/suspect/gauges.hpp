// SPDX-License-Identifier: MIT
#pragma once

#include <trialfit/stack/model/model.hpp>

namespace trialfit::survey {

/// The finest gauge of the job that reads such a distance: one that says so (Gauge::reads), or,
/// where it says nothing, one that the file has used for a distance of the kind. Null where none
/// does; nothing reads where a part lay, or what has no kind.
[[nodiscard]] const job::Gauge* finest_for(const stack::Model& model, stack::Measured kind);

}  // namespace trialfit::survey
