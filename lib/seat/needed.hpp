// SPDX-License-Identifier: MIT
#pragma once

#include <optional>
#include <string>
#include <trialfit/seat/answers.hpp>
#include <trialfit/stack/model.hpp>
#include <trialfit/trade/rotor.hpp>
#include <vector>

namespace trialfit::seat {

/// What turns with the hub: the hub and every turning part that sits on it, from the nominal sizes
/// of their rings and the density of their materials.
struct Turning {
    trade::RingInertia body;
    std::vector<std::string> counted;
    std::vector<std::string> without_density;
    /// Greatest hoop stress of a ring of one of them at the greatest stated speed, taken as free of
    /// the others (spinning_ring); nothing where no speed is stated or Poisson's ratio is unknown.
    std::optional<trade::RingStress> spinning;
    std::string spinning_ring;
};
[[nodiscard]] Turning turning(const stack::Model& model, int hub);

/// The torque that the cone must hold, N m: the greater of the stated engine torque and inertia
/// times the stated crank acceleration. Nothing where neither is stated.
struct Needed {
    std::optional<double> torque_nm;
    std::string source;
};
[[nodiscard]] Needed needed(const job::SeatService& service, const Turning& turning);

}  // namespace trialfit::seat
