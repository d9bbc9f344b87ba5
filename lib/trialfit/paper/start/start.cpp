// SPDX-License-Identifier: MIT
#include <trialfit/paper/start/start.hpp>

namespace trialfit::paper {

const std::array<StartKind, 4>& start_kinds() {
    static const std::array<StartKind, 4> kinds{{
        {.name = "ignition",
         .what = "a rotor on a cone over a backing plate and a stator",
         .text = start_ignition()},
        {.name = "endfloat",
         .what = "the end float of a gearbox shaft, set by shims",
         .text = start_endfloat()},
        {.name = "impeller",
         .what = "a pump impeller between its two walls",
         .text = start_impeller()},
        {.name = "spacer",
         .what = "the spacer tube between two wheel bearings",
         .text = start_spacer()},
    }};
    return kinds;
}

}  // namespace trialfit::paper
