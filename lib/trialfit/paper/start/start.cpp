// SPDX-License-Identifier: MIT
#include <trialfit/paper/start/start.hpp>

namespace trialfit::paper {

const std::array<StartKind, 6>& start_kinds() {
    static const std::array<StartKind, 6> kinds{start_ignition(), start_endfloat(),
                                                start_impeller(), start_spacer(),
                                                start_cover(),    start_bearing()};
    return kinds;
}

}  // namespace trialfit::paper
