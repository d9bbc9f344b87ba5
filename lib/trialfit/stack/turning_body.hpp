// SPDX-License-Identifier: MIT
#pragma once

#include <trialfit/stack/model/model.hpp>
#include <trialfit/trade/strength/rotor.hpp>
#include <variant>

// What a part weighs and how hard it is to spin up, from its rings and the density of its material.
namespace trialfit::stack {

/// The rings as small as their limits let them be, at their nominals, or as large.
enum class Extent { least, nominal, greatest };

/// The part's mass and its inertia about the axis. Where its rings overlap, their metal counts
/// once. `least` and `greatest` enclose every body within the limits, since a body that contains
/// another has more of both: each ring has its least outside, greatest bore and its ends as near to
/// each other as they come, counted from the part's first face, and the other way round. Why not,
/// where the part has no ring, a ring that nobody has measured, or a material of unknown density.
[[nodiscard]] std::variant<trade::RingInertia, NotCounted> body_of(const Model& model,
                                                                   job::PartId part, Extent extent);

}  // namespace trialfit::stack
