// SPDX-License-Identifier: MIT
#pragma once

#include <trialfit/seat/needed.hpp>
#include <trialfit/stack/tightened/load.hpp>
#include <vector>

namespace trialfit::seat {

using stack::Contact;
using stack::Joint;
using stack::Load;
using stack::Tightening;

/// Share of the yield strength that a thread may be tightened to; VDI 2230:2001, sheet 1 (from
/// memory).
inline constexpr double kUtilisation = 0.9;

/// holds: the whole range meets the limits. fails: the middle does not. doubtful: the rest.
[[nodiscard]] stack::Verdict verdict(const Estimate& value, const std::optional<double>& at_least,
                                     const std::optional<double>& at_most);
/// The same where a limit counts as met up to the share `slack` of it beyond.
[[nodiscard]] stack::Verdict verdict(const Estimate& value, const std::optional<double>& at_least,
                                     const std::optional<double>& at_most, double slack);

/// Everything that the nut's torque does, each held to its limit where the job says enough for one.
[[nodiscard]] std::vector<SeatFinding> load_findings(const Joint& joint,
                                                     const Tightening& tightening,
                                                     const TorqueNeeded& needed);

/// What does not depend on the torque: whole thread engaged, thread left to advance by, the key's
/// room, the spinning ring. Lengths in mm.
[[nodiscard]] std::vector<SeatFinding> other_findings(const job::Job& job, const Joint& joint,
                                                      const TurningHub& turning);

/// The worst verdict of all.
[[nodiscard]] stack::Verdict worst_of(const std::vector<SeatFinding>& findings);

/// Where the limits of the torque lie. Loads are proportional to the torque, so each limit is the
/// figure at 1 N m scaled. `all_judged`: whether every limit from above is known.
[[nodiscard]] TorqueLimits torque_limits(const Joint& joint, Tightening tightening,
                                         const TorqueNeeded& needed, bool all_judged);

}  // namespace trialfit::seat
