// SPDX-License-Identifier: MIT
#include <trialfit/paper/start/start.hpp>

namespace trialfit::paper {

std::string_view start_spacer() {
    return R"(# The spacer tube between the two bearings of a wheel hub.
# ALL SIZES HERE ARE INVENTED. Put your own in their place, then: trialfit check FILE
#
# The tube must be as long as the distance between the inner races, or a hair shorter: too short,
# and the axle nut loads the balls; too long, and the second bearing never reaches its shoulder.
trialfit: 1
title: Spacer tube of a wheel hub (invented)
units: mm

gauges:                               # how far a reading may be out, either way
  micrometer: 0.003

parts:                                # in the order in which they go in; outboard is to the right
  - part: left_bearing
    faces:
      outer: zero                     # outer race, the face towards the hub
      inner: 0.000 ±0.003 from outer  # inner race, same side: so far set back (-) or proud (+)
    rings:
      outer_race: {from: outer, below: 14, bore: 38, od: 47}
      inner_race: {from: inner, below: 14, bore: 20, od: 27}

  - part: hub
    sits: {face: left, against: left_bearing.outer}
    faces:
      left: zero                      # the shoulders that the outer races seat on
      right: 62.000 by micrometer from left
    rings:
      barrel: {from: left, to: right, bore: 40, od: 60}

  - part: tube
    sits: {face: left, against: left_bearing.inner}
    faces:
      left: zero
      right: 61.985 by micrometer from left
    rings:
      wall: {from: left, to: right, bore: 20, od: 26}

  - part: right_bearing
    sits: {face: outer, against: hub.right}
    faces:
      outer: zero
      inner: 0.000 ±0.003 from outer
    rings:
      outer_race: {from: outer, above: 14, bore: 38, od: 47}
      inner_race: {from: inner, above: 14, bore: 20, od: 27}

checks:
  - check: tube shorter than the races' distance
    gap: [tube.right, right_bearing.inner]      # inboard face, outboard face
    at_least: 0
    at_most: 0.03
)";
}

}  // namespace trialfit::paper
