// SPDX-License-Identifier: MIT
#pragma once

#include <string_view>

// How sizes that most parts have are measured.
namespace trialfit::paper {

inline constexpr std::string_view kThickness =
    "Caliper or micrometer, three places round it, away from burrs.";
inline constexpr std::string_view kAcross = "Inside jaws of the caliper.";
inline constexpr std::string_view kOutside = "Outside jaws of the caliper.";
inline constexpr std::string_view kInTheCup =
    "Depth rod of the caliper from the rim, three magnets. Plastic or brass does not stick.";
inline constexpr std::string_view kProud =
    "Crank pushed in, rotor pushed home by hand. Depth gauge on the nut's seat, to the shaft's "
    "end, "
    "three places. A shaft that ends below the seat: write -.";
inline constexpr std::string_view kWalls =
    "Straight edge across the joint, depth gauge down to the face. Three places.";

}  // namespace trialfit::paper
