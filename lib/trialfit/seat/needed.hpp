// SPDX-License-Identifier: MIT
#pragma once

#include <optional>
#include <string>
#include <trialfit/seat/answers.hpp>
#include <trialfit/stack/model/model.hpp>
#include <trialfit/trade/strength/rotor.hpp>
#include <vector>

namespace trialfit::seat {

/// What turns with the hub: the hub and every turning part that sits on it, from the nominal sizes
/// of their rings and the density of their materials. Where rings of one part overlap, their metal
/// counts once.
struct TurningHub {
    trade::RingInertia body;
    std::vector<std::string> counted;
    /// Parts that turn with the hub and are not in the inertia.
    std::vector<NotCounted> not_counted;
    /// Greatest hoop stress of a ring of one of them at the greatest stated speed, taken as free of
    /// the others (spinning_ring); nothing where no speed is stated or Poisson's ratio is unknown.
    std::optional<trade::RingStress> spinning;
    std::string spinning_ring;
};
[[nodiscard]] TurningHub turning(const stack::Model& model, job::PartId hub);

/// The torque that the cone must hold, N m: the greater of the stated engine torque and inertia
/// times the stated crank acceleration. Nothing where neither is stated. `unknown`: why what the
/// acceleration asks is not known whole; the torque is then the least that it can be.
struct TorqueNeeded {
    std::optional<double> torque_nm;
    std::string source;
    std::optional<NotCounted> unknown;
    /// Not every friction is stated: whatever the torque does is then known by a guess alone.
    bool friction_assumed = false;
};
[[nodiscard]] TorqueNeeded needed(const job::SeatService& service, const TurningHub& turning);

}  // namespace trialfit::seat
