// SPDX-License-Identifier: MIT
#pragma once

#include <optional>
#include <string_view>
#include <trialfit/job/service.hpp>
#include <trialfit/reading/reader.hpp>
#include <trialfit/reading/values.hpp>

// Angles, in degrees. As the readers of values.hpp: nothing is said where the node is null.
namespace trialfit::reading {

/// An angle with or without limits: `15`, `15 deg`, `15 ±2 deg`, `15 deg ±2`, `13..17 deg`.
/// Complains where it is no angle or one of its limits is beyond the bounds.
[[nodiscard]] std::optional<job::Given> angle_of(Reader& reader, const Node* node,
                                                 std::string_view what,
                                                 const AcceptedNumber& bounds);

/// An angle, which must say `deg`, or a length >= 0 in any form of a size, which must have a unit
/// or limits: a bare number may be either.
[[nodiscard]] std::optional<job::AngleGiven> angle_or_length_of(Reader& reader, const Node* node,
                                                                std::string_view what,
                                                                const AcceptedNumber& bounds);

}  // namespace trialfit::reading
