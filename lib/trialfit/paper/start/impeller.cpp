// SPDX-License-Identifier: MIT
#include <trialfit/paper/start/start.hpp>

namespace trialfit::paper {

std::string_view start_impeller() {
    return R"(# A pump impeller between the back wall of its housing and the casing in front of it.
# ALL SIZES HERE ARE INVENTED. Put your own in their place, then: trialfit check FILE
trialfit: 1
title: Impeller of a water pump (invented)
units: mm
running_clearance: 0.25               # least gap between what turns and what stands still

gauges:                               # how far a reading may be out, either way
  caliper: 0.03
  depth_gauge: 0.02

parts:                                # in the order in which they go on; outboard is to the casing
  - part: housing
    faces:
      bearing: zero                   # the face that the shaft's collar runs against
      back_wall: 9.00 by depth_gauge from bearing
      joint: 28.50 by depth_gauge from bearing
    rings:
      wall: {from: back_wall, below: 6, bore: 26, od: 90}
      flange: {from: joint, below: 8, bore: 96, od: 130}

  - part: shaft
    turns: true
    # Pushed in, the collar lies on the bearing; from there it floats outboard by so much in all.
    sits: {face: collar, against: housing.bearing, play: 0.05..0.15}
    faces:
      collar: zero
      shoulder: 10.00 by caliper from collar
      end: 40 ±0.1 from collar
    rings:
      step: {from: collar, to: shoulder, bore: 0, od: 22}
      spindle: {from: shoulder, to: end, bore: 0, od: 14}

  - part: impeller
    turns: true
    sits: {face: back, against: shaft.shoulder}
    faces: {back: zero, front: 17.80 by caliper from back}
    rings: {body: {from: back, to: front, bore: 14, od: 86}}

  - part: casing
    sits: {face: joint, against: housing.joint, shims: {fitted: [0.50 ±0.05]}}    # the gasket
    faces: {joint: zero, wall: -0.50 by depth_gauge from joint}                   # reaches inboard
    rings: {front: {from: wall, above: 10, bore: 30, od: 90}}

checks:
  - check: front clearance            # too little rubs, too much loses pressure
    gap: [impeller.front, casing.wall]
    at_least: 0.25
    at_most: 1.00
  - check: back clearance
    gap: [housing.back_wall, impeller.back]
    at_least: 0.25
)";
}

}  // namespace trialfit::paper
