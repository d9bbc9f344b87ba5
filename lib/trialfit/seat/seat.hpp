// SPDX-License-Identifier: MIT
#pragma once

#include <trialfit/job/job.hpp>
#include <trialfit/seat/answers.hpp>
#include <trialfit/stack/check/check.hpp>
#include <variant>

namespace trialfit::seat {

/// Whether the hub on the job's cone stays where it is: what the nut's torque does to thread, cone
/// and hub, and what the cone then holds. Every figure over all stated ranges at once, and at their
/// middles. The options' readings bind the sizes, as in stack::check; its other options do not
/// count. Complaints where there is no seat section, no one hub or nut to be found, threads that
/// do not screw together, a cone that lets go by itself at every stated friction, or sizes that
/// contradict each other.
[[nodiscard]] std::variant<SeatAnswer, job::Complaints> seat(const job::Job& job,
                                                             const stack::Options& options = {});

}  // namespace trialfit::seat
